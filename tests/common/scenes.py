"""A student's screens made of fixed rows, so that they change with their looks alone."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, cast

from drill.app.answers import AnswerLine
from drill.app.bench_results import WorkedPart, WorkedUp
from drill.app.coming_days import PlannedDay
from drill.app.papers.paper_results import PaperResult, PaperRow
from drill.app.plan import MinutesRow, PlanFigures
from drill.app.sitting_summary import SittingSummary, SkillResult, Standing
from drill.app.weakness.practised import Practised
from drill.bank import read_deck
from drill.cli import answers, greeting, paper_sitting, plan, results, sitting_summary, start, views
from drill.cli.pictures import show_picture
from drill.frozen import replace
from drill.marking import mark
from drill.model import Axis, Deck, Graph, GraphLine, Question
from drill.places import demo_decks_dir
from drill.planning.figures import Share
from drill.sitting import CurrentQuestion

if TYPE_CHECKING:
    from drill.cli.screen import Screen

_FIRST = date(2027, 3, 1)
_TOPICS = ("making salts", "calculations", "apparatus")


def planned(**changes: object) -> PlanFigures:
    """A learner with 60 answers, eleven weeks before the exam."""
    days = tuple(
        PlannedDay(
            (_FIRST + timedelta(days=number)).isoformat(),
            practice=number != 4,
            minutes=0 if number == 4 else 12,
            spent=False,
            done=False,
            topics=() if number == 4 else _TOPICS[: 1 + number % 3],
            taught=("electrolysis",) if number == 3 else (),
        )
        for number in range(7)
    )
    found = PlanFigures(
        learner="ada", deck="first-steps", exam="2027-05-18", days_left=78, papers=(),
        minutes_a_day=12.0, practised=Practised(14, 28, 152, 336), answers=60, marks=71, of=110,
        met=24, skills=41, held=Share(0.58, 0.51, 0.66), on_the_day=Share(0.71, 0.63, 0.79),
        by_minutes=(MinutesRow(2.0, 0.6), MinutesRow(12.0, 0.71), MinutesRow(22.0, 0.78)),
        apart=0.1, doubt="", days=days, course="combined higher",
    )  # fmt: skip
    return replace(found, **changes)


def _deck() -> Deck:
    deck = read_deck(demo_decks_dir() / "first-steps.toml")
    assert isinstance(deck, Deck)
    return deck


def the_plan(screen: Screen) -> None:
    """`drill plan`."""
    plan._show(screen, _deck(), planned(), "")


def the_answers(screen: Screen) -> None:
    """`drill answers`: a mistake that is named, a written answer, a part left out."""
    line = AnswerLine(
        day="2027-03-01", skill="mass by difference", template="measure/mass-by-difference",
        part="a", ask="Calculate the mass of the crystals.", typed="117.33 g", marks=0, of=1,
        own=0, own_of=0, passed=False, right="2.87 g", scheme=("2.87 g",),
        mistake="You added the basin: take it away.",
    )  # fmt: skip
    written = replace(
        line, skill="reasons in making salts", ask="Explain why the solid is added in excess.",
        typed="so there is enough of it", of=2, marks=0, right="so that all of the acid reacts",
        scheme=("so that all of the acid reacts", "no acid is left in the filtrate"), mistake="",
    )  # fmt: skip
    rows = [line, written, replace(line, typed="", passed=True, mistake="")]
    answers.show_answers(screen, [*rows, replace(line, day="2027-02-27")])


def the_results(screen: Screen) -> None:
    """`drill results`: readings of which one cannot be believed."""
    found = WorkedUp(
        steps=(
            WorkedPart("Calculate the mass.", "60.10 - 57.23 = 2.87\n2.87 g", "2.87 g"),
            WorkedPart("Calculate the yield.", "100 × 2.87 / 4.99 = 57.5\n57.5 %", "57.5 %"),
        ),
        also=("Solid that the acid can use up: 1.59 g.",),
        doubts=("The solid was not in excess, so some acid is left: check the masses.",),
        template=None,
        question=None,
        why_none="they are not believable.",
    )  # fmt: skip
    results._judged(screen, found)
    results._show(screen, found)


def the_end(screen: Screen) -> None:
    """The end of a sitting."""
    standing = Standing(
        marks=71, of=110, met=24, skills=41, exam="2027-05-18", held=Share(0.58, 0.51, 0.66),
        on_the_day=Share(0.71, 0.63, 0.79), first_met=("percentage yield",),
        gained=("mass by difference",), change=None,
    )  # fmt: skip
    skills = (
        SkillResult("mass by difference", 3, 4, "secure"),
        SkillResult("percentage yield", 1, 4, "not yet secure"),
        SkillResult("hazards and how to control them", 0, 2, "no longer secure"),
    )
    sitting_summary.show_summary(
        screen,
        SittingSummary(0, 7, 4, 10, 11, 0, 0, skills, standing, datetime(2027, 3, 3, tzinfo=UTC)),
    )


def the_paper(screen: Screen, question: Question) -> None:
    """The end of a paper: what it brought, and the parts that lost marks."""
    number, choice = question.parts
    asked = CurrentQuestion(
        question, b"1", number.skill, False, datetime(2027, 3, 1, tzinfo=UTC), {}, {}, set()
    )
    for part, typed in ((number, "117.33"), (choice, "")):
        asked.typed[part.id] = (b"1", typed)
        asked.marks[part.id] = mark(part, typed, {})
    rows = (PaperRow("calculate", 1, 2, 75.0), PaperRow("name", 4, 4, 31.5))
    skills = (PaperRow("mass by difference", 1, 2, 75.0), PaperRow("apparatus", 4, 4, 31.5))
    found = PaperResult(5, 20, 0, 0, 12, 700.0, 1200.0, rows, skills)
    paper_sitting.show_result(screen, found, [asked])


def the_graph(screen: Screen, question: Question) -> None:
    """A curve over its grid; words where nothing is seen."""
    curve = tuple((Fraction(10 * x), Fraction(50 * x, x + 2)) for x in range(6))
    across = Axis("time", "s", Fraction(0), Fraction(50), Fraction(10), 5)
    up = Axis("volume of gas", "cm3", Fraction(0), Fraction(50), Fraction(10), 5)
    line = GraphLine(curve, straight=False, dashed=False, label="A")
    show_picture(screen, replace(question, graph=Graph("Gas made", across, up, (), (line,))))


def the_start(screen: Screen) -> None:
    """`drill` alone."""
    for row in start.lines_for(screen.width, screen.plain).splitlines():
        screen.console.print(row)


def the_greeting(screen: Screen) -> None:
    """The first sitting of a learner, after one that was broken off."""
    store = SimpleNamespace(
        setting=lambda who, name: None, set_setting=lambda *kept: None,
        offered=lambda who: [1, 2], settled_since=lambda who, place: ([], place),
    )  # fmt: skip
    sitting = SimpleNamespace(
        deck=replace(_deck(), course=""), bank=None, elsewhere=True,
        planner=SimpleNamespace(exam=None), paper_waits=SimpleNamespace(marks=20),
        ended_here="first-steps rates", resumed=False,
    )  # fmt: skip
    who = SimpleNamespace(code="ada")
    now = datetime(2027, 3, 1, tzinfo=UTC)
    greeting.greet(screen, cast("Any", store), cast("Any", sitting), cast("Any", who), now)


def the_paper_opens(screen: Screen, question: Question) -> None:
    """The beginning of a paper, with its first question."""
    sitting = cast("Any", SimpleNamespace(taken_up=(), resumed=False))
    now = datetime(2027, 3, 1, tzinfo=UTC)
    desk = paper_sitting.PaperConversation(screen, sitting, lambda: now, [(question, "")], 25)
    desk._greet()
    views.show_question(screen, question, "question 1 of 1 · 4 min left", safety=False)
    views.show_part(screen, question.parts[0], alone=False)
