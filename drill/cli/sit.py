"""`drill sit`: a sitting at the terminal."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Annotated

import typer

from drill.app.context import deck_of, existing_learner, open_checked, open_store, place_of
from drill.cli.common import At, LearnerCode, Plain, TopicArgument, clock, finite
from drill.errors import DrillError
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.context import Learner, Store
    from drill.cli.screen import Screen
    from drill.model import Deck
    from drill.sitting import Sitting

Questions = Annotated[
    int | None, typer.Option(min=1, max=1000, help="Stop after so many questions.")
]
Minutes = Annotated[
    float | None,
    typer.Option(min=1, max=1440, callback=finite, help="Stop after so many minutes."),
]
Seed = Annotated[
    int | None,
    typer.Option(min=0, max=2**62, help="Where this sitting's numbers start from."),
]
Sure = Annotated[
    bool | None, typer.Option("--sure/--no-sure", help='Be asked "How sure?" each time.')
]
OFFERS_TOLD = "offers told"


def sit(
    topics: TopicArgument = "",
    learner: LearnerCode = "",
    questions: Questions = None,
    minutes: Minutes = None,
    sure: Sure = None,
    plain: Plain = False,
    seed: Seed = None,
    at: At = "",
) -> None:
    """Answer the questions that gain most by exam day, marked at once.

    While answering: ? for a hint, pass, stop; after a mark: appeal, fix, faulty.

    Written answers are marked by pattern, measured on invented answers marked by their author; on
    real ones expect worse (published systems: 84 to 96 in 100 as a person marks). Check the scheme.
    """
    from drill.app.handouts import take_settled
    from drill.cli.screen import Screen

    screen = Screen(plain)
    now = ticking(at)
    with open_store() as store:
        who = who_is_it(screen, store, learner, now())
        deck = its_course(screen, store, who, deck_of(store, who, topics), now())
        settled = take_settled(store, deck, now()) if topics else 0
        if settled:
            screen.line(f"Your teacher has settled {counted(settled, 'mark')}.")
        sitting = _begin(store, deck, who, now(), questions, minutes, seed)
        _remember(store, who, deck, topics, sure, now())
        converse(screen, store, sitting, who, now)


def converse(
    screen: Screen, store: Store, sitting: Sitting, who: Learner, now: Callable[[], datetime]
) -> None:
    """A sitting from greeting to farewell."""
    _greet(screen, store, sitting, who)
    _run(screen, sitting, now, store.setting(who, "sure") == "yes")


def its_course(screen: Screen, store: Store, who: Learner, deck: Deck, now: datetime) -> Deck:
    """The deck for the learner's own course, asked once where the deck is for several."""
    if deck.course or not deck.courses:
        return deck
    for number, course in enumerate(deck.courses, 1):
        screen.line(f"{number}  {course}")
    while True:
        try:
            typed = screen.ask("Which course is yours? > ").strip().casefold()
        except EOFError:
            raise DrillError("nobody is there to say which course is theirs.") from None
        known = {str(number): course for number, course in enumerate(deck.courses, 1)}
        known |= {course: course for course in deck.courses}
        if typed in known:
            store.set_setting(who, "course", known[typed], now)
            return deck.for_course(known[typed])
        screen.line(f"Type a number from 1 to {len(deck.courses)}.")


def sit_deck(
    screen: Screen,
    store: Store,
    who: Learner,
    deck: Deck,
    now: Callable[[], datetime],
    questions: int | None,
    seed: int | None,
) -> None:
    """A sitting of a deck that is not kept as the learner's own."""
    deck = its_course(screen, store, who, deck, now())
    converse(screen, store, _begin(store, deck, who, now(), questions, None, seed), who, now)


def ticking(at: str) -> Callable[[], datetime]:
    """The clock; with `--at` one that stood there when the command began."""
    start, began = clock(at), datetime.now().astimezone()
    return lambda: start + (datetime.now().astimezone() - began)


def who_is_it(screen: Screen, store: Store, code: str, now: datetime) -> Learner:
    """Who is practising; the first sitting on this computer asks for a code, in one line."""
    learners = store.learners()
    if code and not learners:
        return store.new_learner(code, now)
    if code or len(learners) == 1:
        return existing_learner(store, code)
    known = ", ".join(who.code for who in learners)
    asking = f"Who is it? {known}, or another code" if known else "A short code for you"
    while True:
        try:
            typed = screen.ask(f"{asking} (letters or digits, not your name) > ").strip()
        except EOFError:
            raise DrillError(
                "nobody is there to say who it is. Name them: --learner CODE"
            ) from None
        same = [who for who in learners if who.code.casefold() == typed.casefold()]
        if same:
            return same[0]
        try:
            return store.new_learner(typed, now)
        except DrillError as error:
            screen.line(str(error))


def _begin(
    store: Store,
    deck: Deck,
    who: Learner,
    now: datetime,
    questions: int | None,
    minutes: float | None,
    seed: int | None,
) -> Sitting:
    from drill.sitting import Goal, Sitting

    return Sitting(store, open_checked(deck), deck, who, now, Goal(questions, minutes), seed)


def _remember(
    store: Store, who: Learner, deck: Deck, topics: str, sure: bool | None, now: datetime
) -> None:
    """Keep what was chosen for the next start, when it is a change."""
    chosen = {"deck": topics and place_of(deck)}
    if sure is not None:
        chosen["sure"] = "yes" if sure else "no"
    for name, value in chosen.items():
        if value and store.setting(who, name) != value:
            store.set_setting(who, name, value, now)
    if store.setting(None, "last learner") != who.code:
        store.set_setting(None, "last learner", who.code, now)


def _greet(screen: Screen, store: Store, sitting: Sitting, who: Learner) -> None:
    from drill.cli import views

    first = not store.setting(who, "greeted")
    screen.pair(sitting.deck.title, who.code, style="bold")
    if first:
        screen.line(views.SAFETY)
        screen.line("You need: a calculator, paper and a periodic table.")
        for line in (*_assumed(sitting), *_seen_by_others()):
            screen.line(line, style="dim")
        store.set_setting(who, "greeted", "yes", datetime.now().astimezone())
    if sitting.elsewhere:
        screen.line(
            "A sitting of yours goes on in another window. This one is a sitting of its own; "
            "both count, and no question comes in both."
        )
    _offer(screen, store, who)
    if sitting.resumed:
        number = len(sitting.done)
        so_far = f", after {counted(number, 'question')}" if number else ""
        screen.line(f"Going on where you stopped{so_far}.")
    screen.line("? for a hint · pass · stop · help tells the other words", style="dim")


def _offer(screen: Screen, store: Store, who: Learner) -> None:
    """Say once that marks came from another machine."""
    number = str(len(store.offered(who)))
    if number not in ("0", store.setting(who, OFFERS_TOLD)):
        marks = counted(int(number), "mark")
        screen.line(f"{marks} from a teacher or tutor came with a file: drill appeals accept")
        store.set_setting(who, OFFERS_TOLD, number, datetime.now().astimezone())


def _seen_by_others() -> list[str]:
    """A line where others may look into the data folder."""
    from drill.app.data import folder_note

    return list(filter(None, [folder_note()]))


def _assumed(sitting: Sitting) -> list[str]:
    deck = sitting.deck
    lines = []
    if not any(paper.exam for paper in deck.papers):
        lines.append(
            "No exam date is set, so practice is always planned for the next four weeks. "
            "Set one with: drill plan --exam 2027-05-18"
        )
    if not any(topic.taught for topic in deck.topics):
        lines.append("All of it is taken as taught already.")
    lines.append(f"Course: {deck.course or 'any'}. Time: {deck.minutes_a_day} minutes a day.")
    return lines


def _run(screen: Screen, sitting: Sitting, now: Callable[[], datetime], asks_sure: bool) -> None:
    from drill.cli.conversation import Desk, Stopped

    desk = Desk(screen, sitting, now, asks_sure)
    extra = put = False
    try:
        while True:
            asked = sitting.next(now(), extra=extra)
            if asked is not None:
                put = True
                desk.take(asked, _place(sitting, asked.shown, now()))
                continue
            if sitting.reached(now()) or not _more(screen, sitting, now()):
                break
            extra = True
    except Stopped:
        pass
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line("Stopped. Every answer is kept; drill sit goes on from here.")
        raise typer.Exit(130) from None
    sitting.end(now())
    from drill.app.sitting_summary import summary
    from drill.cli.sitting_summary import farewell

    farewell(screen, summary(sitting, now()), put)


def _place(sitting: Sitting, example: bool, now: datetime) -> str:
    """Where in the sitting we are: quiet, at the right of the title."""
    if example:
        return f"worked example{_minutes_left(sitting, now)}"
    number = len(sitting.done) + 1
    of = f" of {sitting.goal.questions}" if sitting.goal.questions else ""
    marks, out_of = sitting.marks()
    so_far = f" · {marks} of {counted(out_of, 'mark')} so far" if out_of else ""
    minutes = _minutes_left(sitting, now)
    return f"question {number}{of}{minutes}{so_far}"


def _minutes_left(sitting: Sitting, now: datetime) -> str:
    """Of the sitting's own minutes, else of today's: earlier sittings of the day count there."""
    if sitting.goal.questions is not None and sitting.goal.minutes is None:
        return ""
    if sitting.goal.minutes is not None:
        total, spent = sitting.goal.minutes, sitting.seconds()
    else:
        total, spent = sitting.minutes_a_day, sitting.planner.past.spent(now)
    left = timedelta(minutes=total) - timedelta(seconds=spent)
    minutes = max(0, round(left.total_seconds() / 60))
    return f" · about {minutes} min left" if minutes else ""


def _more(screen: Screen, sitting: Sitting, now: datetime) -> bool:
    """Today's minutes are spent: offer to go on. When nothing is left to ask, say why instead."""
    from drill.app.nothing_to_ask import why_no_more

    if sitting.planner.choose(now, extra=True) is None:
        screen.line(why_no_more(sitting.planner, now))
        return False
    reply = screen.ask("Today's minutes are done. Enter to end, or type more > ")
    return reply.strip().casefold() == "more"
