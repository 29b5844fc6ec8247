"""Every key of a topic deck, described once: this checks a deck and writes the docs."""

from __future__ import annotations

from collections.abc import Mapping

from drill.bank.schema.fields import Field
from drill.model import COURSES

DECK = (
    Field("format", "whole", "Which version of these rules the file follows; always the first "
        "line.",
        "format = 1", required=True, low=1, high=10**6),
    Field("id", "text", "A short name for the deck; left out, the file's name.",
        'id = "autumn-salts"'),
    Field("title", "text", "What students see.", 'title = "Making salts"', required=True),
    Field("course", "one or more", "Which course the students take; for a mixed class a list, and "
        "each says once which is theirs.", 'course = "combined foundation"',
        required=True, allowed=COURSES),
    Field("minutes_a_day", "whole", "How long they practise on a day.", "minutes_a_day = 12",
        default=12, low=1, high=240),
    Field("paper", "tables", "The exam papers, each headed [[paper]]; none when there is no exam.",
        '[[paper]]\nid = "first"\nexam = 2027-05-18', default=(), high=20),
    Field("topic", "tables", "What is taught, each headed [[topic]].",
        '[[topic]]\npractical = "salts"', required=True, low=1, high=60),
    Field("bench", "table", "The school's own line on risk, and notes on its equipment.",
        "bench = { balance = 0.01 }"),
    Field("own", "table", "The school's own questions.", 'own = { templates = "." }'),
)  # fmt: skip

PAPER = (
    Field("id", "text", "A short name for the paper, by which topics name it.", 'id = "first"',
        required=True),
    Field("exam", "day", "Its date, as 2027-05-18, 18/05/2027 or 18 May 2027.",
        "exam = 2027-05-18", required=True),
)  # fmt: skip

TOPIC = (
    Field("practical", "text", "A practical of the bank, by its folder.", 'practical = "salts"',
        default=""),
    Field("skills", "texts", "Skills, as well as the practical or instead of it; * stands for "
        "anything.", 'skills = ["salts.*"]', default=()),
    Field("without", "texts", "Questions left out; * stands for anything.",
        'without = ["salts/why-*"]', default=()),
    Field("paper", "text", "The paper that examines it; left out, the first.", 'paper = "first"',
        default=""),
    Field("taught", "day", "The day it is taught; left out, it has been taught.",
        "taught = 2027-01-11"),
    Field("weight", "number", "How much it counts, 1 being usual.", "weight = 2", default=1),
)  # fmt: skip

BENCH = (
    Field("balance", "number", "The finest division of the balance in g: a note, no question "
        "changes.", "balance = 0.01"),
    Field("thermometer", "number", "The finest division of the thermometer in °C: a note, no "
        "question changes.",
        "thermometer = 1"),
    Field("names", "table", "The school's own word for a thing: a note, no question changes.",
        'names = { "evaporating basin" = "evaporating dish" }'),
    Field("risk_line", "text", "Shown under each safety notice.",
        'risk_line = "Follow the risk assessment on the corridor board."'),
)  # fmt: skip

OWN = (
    Field("templates", "text", "The folder beside this file that has <practical>/<question>.toml.",
        'templates = "."', required=True),
)  # fmt: skip

DECK_GROUPS: Mapping[str, tuple[Field, ...]] = {
    "The deck": DECK,
    "A paper: `[[paper]]`": PAPER,
    "A topic: `[[topic]]`": TOPIC,
    "The bench: `[bench]`": BENCH,
    "The school's own questions: `[own]`": OWN,
}
