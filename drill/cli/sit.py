"""`drill sit`: a sitting at the terminal."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Annotated, NamedTuple

import typer

from drill.app.context import deck_of, open_bank_of_all, open_checked, open_store, place_of
from drill.cli.common import (
    At,
    LearnerCode,
    PlainKept,
    clock,
    finite,
    is_plain,
    keep_plain,
)
from drill.cli.greeting import greet, its_course, who_is_it
from drill.plaintext import counted

if TYPE_CHECKING:
    from drill.app.context import Learner, Store
    from drill.cli.screen import Screen
    from drill.model import Deck
    from drill.sitting import Goal, PaperGoal, Sitting

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
TopicsWords = Annotated[
    str,
    typer.Argument(
        help="A topic deck (its id, or its file), or a practical, topic or skill in words."
    ),
]
Again = Annotated[
    bool, typer.Option("--again", help="Only what went wrong lately, with new numbers.")
]
PaperMarks = Annotated[
    int | None,
    typer.Option(min=5, max=120, help="A paper of so many marks against the clock."),
]
ExtraTime = Annotated[
    int, typer.Option(min=0, max=300, help="Extra time for a paper, in percent, as 25.")
]
Sure = Annotated[
    bool | None, typer.Option("--sure/--no-sure", help='Be asked "How sure?" each time.')
]


def sit(
    topics: TopicsWords = "",
    learner: LearnerCode = "",
    again: Again = False,
    questions: Questions = None,
    minutes: Minutes = None,
    sure: Sure = None,
    paper: PaperMarks = None,
    extra_time: ExtraTime = 0,
    plain: PlainKept = None,
    seed: Seed = None,
    at: At = "",
) -> None:
    """Answer the questions that gain most by exam day, marked at once.

    TOPICS is a topic deck, or in words a practical, a topic or a skill: drill sit titration.
    While answering: ? for a hint, pass, stop, help for every other word.

    Written answers are marked by pattern, measured on invented answers marked by their author; on
    real ones expect worse (published systems: 84 to 96 in 100 as a person marks). Check the scheme.
    """
    from drill.app.narrowing import check_words, is_deck
    from drill.app.topics.handouts import take_paper, take_settled
    from drill.cli.screen import Screen
    from drill.sitting import Goal

    now = ticking(at)
    with open_store() as store:
        screen = Screen(is_plain(store, learner, plain))
        named = topics if is_deck(topics) else ""
        if topics and not named:
            check_words(open_bank_of_all(store), topics)
        who = who_is_it(screen, store, learner, now())
        keep_plain(store, who, plain, now())
        deck = its_course(screen, store, who, deck_of(store, who, named), now())
        if named:
            take_settled(store, deck, now())
            came = take_paper(store, deck, now())
            if came:
                screen.line(f"Marks from paper came with it, for {counted(came, 'question')}.")
        words = "" if named else topics
        narrow = Narrow(words, again) if words or again else None
        goal = Goal(questions, minutes, _paper_goal(paper, seed, extra_time, now()))
        sitting = _begin(store, deck, who, now(), goal, seed, narrow)
        _remember(store, who, deck, named, sure, now())
        if paper is not None:
            _paper(screen, sitting, now)
            return
        converse(screen, store, sitting, who, now, _command(words, again))


def _command(words: str, again: bool) -> str:
    """What goes on with a sitting that was broken off: one on a single thing is named again."""
    return shlex.join(
        ["drill", "sit", *([words] if words else []), *(["--again"] if again else [])]
    )


def _paper_goal(marks: int | None, seed: int | None, extra: int, now: datetime) -> PaperGoal | None:
    from drill.sitting import PaperGoal

    if marks is None:
        return None
    return PaperGoal(marks, seed if seed is not None else int(now.timestamp()), extra)


def _paper(screen: Screen, sitting: Sitting, now: Callable[[], datetime]) -> None:
    """A paper against the clock, from its first question to what it brought."""
    from drill.app.papers.assembly import PaperWish, assemble
    from drill.cli.paper_sitting import PaperConversation, show_result

    goal = sitting.goal.paper
    assert goal is not None
    made = assemble(sitting.bank, sitting.deck, PaperWish(goal.marks, goal.seed), sitting.began)
    questions = zip(made.questions, (item.skill for item in made.plan.items), strict=True)
    desk = PaperConversation(screen, sitting, now, list(questions), goal.extra)
    try:
        found = desk.take()
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line(f"Stopped. Every answer is kept; drill sit --paper {goal.marks} goes on.")
        raise typer.Exit(130) from None
    sitting.end(now())
    with screen.by_windows():
        show_result(screen, found, desk.done)


def converse(
    screen: Screen,
    store: Store,
    sitting: Sitting,
    who: Learner,
    now: Callable[[], datetime],
    command: str = "drill sit",
) -> None:
    """A sitting from greeting to farewell; `command` goes on with it when it is broken off."""
    greet(screen, store, sitting, who, now())
    asks_sure = store.setting(who, "sure") == "yes"
    if asks_sure:
        screen.line("How sure you are is asked each time; drill sit --no-sure ends that.", "dim")
    try:
        _run(screen, sitting, now, asks_sure)
    except (KeyboardInterrupt, EOFError):
        screen.line()
        screen.line(f"Stopped. Every answer is kept; {command} goes on from here.")
        raise typer.Exit(130) from None


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
    from drill.sitting import Goal

    deck = its_course(screen, store, who, deck, now())
    converse(screen, store, _begin(store, deck, who, now(), Goal(questions), seed), who, now)


def ticking(at: str) -> Callable[[], datetime]:
    """The clock; with `--at` one that stood there when the command began."""
    start, began = clock(at), datetime.now().astimezone()
    return lambda: start + (datetime.now().astimezone() - began)


class Narrow(NamedTuple):
    """What alone is asked: what the words name, or what went wrong lately."""

    words: str
    again: bool


def _begin(
    store: Store,
    deck: Deck,
    who: Learner,
    now: datetime,
    goal: Goal,
    seed: int | None,
    narrow: Narrow | None = None,
) -> Sitting:
    """The sitting; one on a single thing goes on for the day's minutes, whatever the plan says."""
    from drill.app.narrowing import again, narrowed
    from drill.sitting import Goal, Sitting

    bank = open_checked(deck)
    if narrow is not None:
        deck = narrowed(deck, bank, narrow.words) if narrow.words else deck
        deck = again(deck, bank, store, who, now) if narrow.again else deck
        goal = goal if goal != Goal() else Goal(None, float(deck.minutes_a_day))
    return Sitting(store, bank, deck, who, now, goal, seed)


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


def _run(screen: Screen, sitting: Sitting, now: Callable[[], datetime], asks_sure: bool) -> None:
    from drill.cli.conversation import Conversation, Stopped

    desk = Conversation(screen, sitting, now, asks_sure)
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
    ended = now()
    sitting.end(ended)
    from drill.app.sitting_summary import summary
    from drill.cli.sitting_summary import show_summary

    show_summary(screen, summary(sitting, ended), put)
    _how_to_hand_in(screen, sitting)


def _how_to_hand_in(screen: Screen, sitting: Sitting) -> None:
    """One line where the deck came from a teacher who waits for the answers."""
    from drill.app.topics.handouts import came_as_handout

    if came_as_handout(sitting.deck) and sitting.done:
        code = sitting.learner.code
        screen.line(f"For your teacher: drill data export --learner {code} --out {code}.handin")


def _place(sitting: Sitting, example: bool, now: datetime) -> str:
    """The place in the sitting, shown quietly to the right of the title."""
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
