"""A learner's report for a tutor: the next lesson first, then everything it rests on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.weakness.lesson_item import LessonItem
from drill.app.weakness.mistakes import CommonMistake, Example, common_mistakes, example
from drill.app.weakness.next_lesson import next_lesson
from drill.app.weakness.part_answers import answers_of
from drill.app.weakness.practised import Practised, minutes_planned, practised
from drill.app.weakness.questions_to_ask import questions_to_ask
from drill.app.weakness.skill_rows import SkillRow, skill_answers, skill_rows
from drill.app.weakness.weak_more import (
    Compared,
    HelpRow,
    SureRow,
    WeekRow,
    by_sureness,
    by_week,
    help_taken,
    two_dates,
)
from drill.planning.figures import Share

if TYPE_CHECKING:
    from drill.bank import Bank
    from drill.model import Deck
    from drill.store import Learner, Store


@dataclass(frozen=True)
class LearnerReport:
    """Everything a tutor may ask about one learner with one deck.

    `held` and `on_the_day` are None while there are too few answers; `marks` of `of` and `met` of
    `skills_in_deck` hold always. `skills`: a row each, the weakest first. `name`: the one of a
    class list on this machine, or "".
    """

    learner: str
    deck: str
    on: str
    exam: str | None
    days_left: int | None
    practised: Practised
    answers: int
    marks: int
    of: int
    met: int
    skills_in_deck: int
    held: Share | None
    on_the_day: Share | None
    lesson: tuple[LessonItem, ...]
    held_least: tuple[SkillRow, ...]
    mistakes: tuple[CommonMistake, ...]
    not_tried: tuple[str, ...]
    strong: tuple[SkillRow, ...]
    ask: tuple[str, ...]
    not_sure: tuple[Example, ...]
    skills: tuple[SkillRow, ...]
    weeks: tuple[WeekRow, ...]
    sureness: tuple[SureRow, ...]
    help: tuple[HelpRow, ...]
    compared: Compared | None
    name: str = ""


def learner_report(
    store: Store,
    bank: Bank,
    deck: Deck,
    who: Learner,
    now: datetime,
    between: tuple[date, date] | None = None,
) -> LearnerReport:
    """The report on one learner; `between`: two dates to be compared."""
    from drill.planning import weakness
    from drill.sitting import learners_planner, parts_of_versions, states
    from drill.sitting.learner_figures import learners_figures

    askings = store.askings(who)
    rows = answers_of(store, bank, askings)
    planner = learners_planner(store, bank, deck, who, now)
    parts = parts_of_versions(store, askings)
    figures = learners_figures(store, planner, deck, who, now)
    weak = weakness.weak_skills(planner.memory, skill_answers(askings, parts, rows), now)
    of_deck = [one for one in weak if one.skill in planner.skills]
    words = states(askings, parts, planner, now)
    skills = {row.skill: row for row in skill_rows(bank, planner, figures, weak, rows, words)}
    mistakes = common_mistakes(rows)
    lesson = next_lesson(of_deck, skills, rows, mistakes, now)
    least = [one.skill for one in weakness.held_least(of_deck)]
    untried = [one for one in planner.in_play(now) if not (skills[one].of or skills[one].own_of)]
    names = {row.skill: row.name for row in skills.values()}.__getitem__
    known = {entry.id for entry in bank.entries() if entry.ok and not entry.retired}
    return LearnerReport(
        learner=who.code,
        deck=deck.title,
        on=now.date().isoformat(),
        exam=planner.exam.date().isoformat() if planner.exam else None,
        days_left=(planner.exam.date() - now.date()).days if planner.exam else None,
        practised=practised(askings, minutes_planned(store, who, deck, now.tzinfo), now),
        answers=figures.answers,
        marks=sum(row.marks for row in rows),
        of=sum(row.of for row in rows),
        met=figures.met,
        skills_in_deck=figures.skills,
        held=figures.held,
        on_the_day=figures.on_the_day,
        lesson=tuple(lesson),
        held_least=tuple(skills[one] for one in least),
        mistakes=tuple(mistakes),
        not_tried=tuple(skills[one].name for one in untried),
        strong=tuple(skills[one.skill] for one in weakness.strongest(of_deck)),
        ask=questions_to_ask(lesson, [*least, *untried], planner, rows, known),
        not_sure=tuple(example(row) for row in rows if row.unsure),
        skills=tuple(skills.values()),
        weeks=tuple(by_week(rows)),
        sureness=tuple(by_sureness(rows)),
        help=tuple(help_taken(rows, names)),
        compared=two_dates(rows, *between, names) if between else None,
    )


@contextmanager
def store_of_file(file: str, now: datetime) -> Iterator[Store]:
    """A store with nothing but what an exported file or a hand-in holds; it is gone afterwards.

    Raises:
        DrillError: there is no such file, or nothing in it can be read, as in a table.
    """
    from tempfile import TemporaryDirectory

    from drill.app.data import import_data
    from drill.errors import DrillError
    from drill.plaintext import one_line
    from drill.store import Store

    with TemporaryDirectory() as folder, Store.open(Path(folder) / "drill.db") as store:
        if _take_hand_in(store, Path(file)):
            yield store
            return
        brought = import_data(store, file, None, now)
        if not store.learners():
            fault = next((f" Line {one.line}: {one.says}" for one in brought.faults), "")
            raise DrillError(
                f"{one_line(file)}: nobody's answers are in it. Give a hand-in, or a file that "
                "drill data export --out NAME.jsonl wrote; a table cannot be read back."
                f"{fault}"
            )
        yield store


def _take_hand_in(store: Store, path: Path) -> bool:
    """Whether it is a hand-in; its answers are then in the store.

    Raises:
        DrillError: it cannot be read, or is damaged.
    """
    from drill.app.context import open_store
    from drill.app.weakness.handed_in import take_handed_to_us
    from drill.errors import DrillError
    from drill.exchange.hand_in import LARGEST, NotHandIn, is_hand_in, unpacked
    from drill.places import reason
    from drill.plaintext import one_line

    try:
        with path.open("rb") as opened:
            data = opened.read(LARGEST + 1)
        if not is_hand_in(data):
            return False
        one = unpacked(data)
        with open_store(reading=True) as ours:
            take_handed_to_us(store, ours, one)
    except OSError as error:
        raise DrillError(f"{one_line(str(path))}: {reason(error)}") from error
    except NotHandIn as error:
        raise DrillError(f"{one_line(str(path))}: {error} Ask for it again.") from error
    return True
