"""Answers of an invented learner, put into a store as a sitting would."""

from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path

from drill.bank import kept_rows
from drill.generate import generate
from drill.marking import mark
from drill.model import NumberKey, Question, Template
from drill.places import data_dir
from drill.store import NewAsking, Store
from tests.common.shipped import shipped_bank

START = datetime(2027, 1, 12, 17, tzinfo=UTC)


def keep(store: Store, template: Template) -> None:
    """Keep a template's version as a sitting does."""
    rows = kept_rows(row for table in template.tables.values() for row in table)
    store.keep_template(
        template.version, template.id, template.text, rows, dict(template.shared_slips)
    )


def slipped_twice(home: Path) -> datetime:
    """The same slip on two days; returns a moment after them."""
    bank = shipped_bank()
    template = bank.template("measure/mass-by-difference")
    assert not isinstance(template, tuple)
    home.mkdir(exist_ok=True)
    with Store.open(home / "drill.db") as store:
        learner = store.new_learner("ada", START)
        keep(store, template)
        for day, seed in enumerate((11, 12)):
            now = START + timedelta(days=day)
            question = generate(template, seed)
            assert isinstance(question, Question)
            sitting = store.start_sitting(learner, "first-steps", now, {})
            asking = store.ask(
                NewAsking(
                    sitting, learner, template.version, template.id, seed, template.skills[0], False
                ),
                now,
            )
            part = question.parts[0]
            assert isinstance(part.key, NumberKey)
            typed = part.key.slips[0].text
            answer = store.answer(asking, part.id, typed, "answer", None, 20.0, now)
            store.verdict(answer, "engine", "1", mark(part, typed), now)
            store.end_sitting(sitting, now, "done")
    return START + timedelta(days=2)


def only_question(home: Path, template: str) -> str:
    """A topic deck that asks one template and nothing else; returns its file."""
    home.mkdir(exist_ok=True)
    entries = shipped_bank().entries()
    skill = next(entry.skills[0] for entry in entries if entry.id == template)
    others = [e.id for e in entries if e.skills[0] == skill and e.id != template]
    path = home / "only.toml"
    path.write_text(
        f'format = 1\nid = "only"\ntitle = "Only one"\ncourse = "separate higher"\n'
        f'minutes_a_day = 12\n[[paper]]\nid = "first"\nexam = 2027-05-18\n'
        f'[[topic]]\nskills = ["{skill}"]\nwithout = {json.dumps(others)}\n',
        encoding="utf-8",
    )
    return str(path)


def spend_two_minutes() -> None:
    """An asking of two minutes on 2027-01-12, put beside the one learner's others."""
    template = shipped_bank().template("measure/mass-by-difference")
    assert not isinstance(template, tuple)
    question = generate(template, 3)
    assert isinstance(question, Question)
    when = datetime.fromisoformat("2027-01-12T17:10").astimezone()
    with Store.open(data_dir() / "drill.db") as store:
        (who,) = store.learners()
        keep(store, template)
        sitting = store.start_sitting(who, "first-steps", when, {})
        skill = template.skills[0]
        asking = store.ask(
            NewAsking(sitting, who, template.version, template.id, 3, skill, False), when
        )
        part = question.parts[0]
        answer = store.answer(asking, part.id, "1", "answer", None, 120.0, when)
        store.verdict(answer, "engine", "1", mark(part, "1"), when)
        store.end_sitting(sitting, when, "done")
