"""Before a sitting: who it is, which course, how the day opens, what is assumed."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from drill.app.context import existing_learner, is_for_any_course
from drill.errors import DrillError
from drill.plaintext import counted, one_line

if TYPE_CHECKING:
    from collections.abc import Sequence

    from drill.app.context import Bank, Learner, Store
    from drill.cli.screen import Screen
    from drill.model import Deck
    from drill.sitting import Sitting

OFFERS_TOLD = "offers told"
_MOST_SETTLED = 8
LEFT_OUT_TOLD = "left out told"


def who_is_it(screen: Screen, store: Store, code: str, now: datetime) -> Learner:
    """Who is practising; the first sitting on this computer asks for a code, in one line."""
    learners = store.learners()
    if code and not learners:
        return store.new_learner(code, now)
    if code or (len(learners) == 1 and not screen.is_typed_at):
        return existing_learner(store, code)
    last = existing_learner(store, "") if learners else None
    asking = _asking(learners, last)
    while True:
        try:
            typed = screen.ask(asking).strip()
        except EOFError:
            raise DrillError(
                "nobody is there to say who it is. Name them: --learner CODE"
            ) from None
        if not typed and last is not None:
            return last
        same = [who for who in learners if who.code.casefold() == typed.casefold()]
        if same:
            return same[0]
        try:
            return store.new_learner(typed, now)
        except DrillError as error:
            screen.line(str(error))


def _asking(learners: Sequence[Learner], last: Learner | None) -> str:
    """Who sat here last is one key away; everybody else types a code, also one that is new."""
    if last is None:
        return "A short code for you (letters or digits, not your name) > "
    others = ", ".join(who.code for who in learners if who.code != last.code)
    return f"Who is it? Enter: {last.code}; somebody else: {others or 'a code of their own'} > "


def its_course(screen: Screen, store: Store, who: Learner, deck: Deck, now: datetime) -> Deck:
    """The deck for the learner's own course, asked once where the deck is for several.

    Of the decks that come with the program it is asked at a terminal, and may be left open.
    """
    shipped = is_for_any_course(deck)
    if shipped and (not screen.is_typed_at or store.setting(who, "course") is not None):
        return deck
    if not shipped and (deck.course or not deck.courses):
        return deck
    for number, course in enumerate(deck.courses, 1):
        screen.line(f"{number}  {course}")
    found = _typed_course(screen, deck.courses, may_be_left=shipped)
    store.set_setting(who, "course", found, now)
    if not found:
        screen.line(f"Not sure: it is taken as {deck.course} until you say; ask your teacher.")
    screen.line("It can be changed at any time: drill plan --course", style="dim")
    return deck.for_course(found)


def _typed_course(screen: Screen, listed: Sequence[str], may_be_left: bool) -> str:
    """One of the listed courses; "" where it may be left open and is."""
    from drill.app.topics.courses import course_of, listed_courses
    from drill.app.topics.deck_answers import Wrong

    leave = " (Enter: not sure)" if may_be_left else ""
    while True:
        try:
            typed = screen.ask(f"Which course is yours?{leave} > ").strip()
        except EOFError:
            raise DrillError("nobody is there to say which course is theirs.") from None
        found = "" if may_be_left and not typed else course_of(typed, listed)
        if not isinstance(found, Wrong) and found in ("", *listed):
            return found
        if isinstance(found, str):
            found = Wrong(f"Nothing here is for {found}. There are: {listed_courses(listed)}.")
        screen.line(found.says)


def greet(screen: Screen, store: Store, sitting: Sitting, who: Learner, now: datetime) -> None:
    """What stands above the first question: at most once what is assumed, then how the day opens.

    Args:
        now: the sitting's clock.
    """
    from drill.cli import views

    first = not store.setting(who, "greeted")
    screen.pair(sitting.deck.title, who.code, style="bold")
    if first:
        screen.line(views.SAFETY)
        screen.line("You need: a calculator, paper and a periodic table.")
        for line in (*_assumed(sitting), *_seen_by_others()):
            screen.line(line, style="dim")
        store.set_setting(who, "greeted", "yes", now)
    if sitting.elsewhere:
        screen.line(
            "A sitting of yours goes on in another window. This one is a sitting of its own; "
            "both count, and no question comes in both."
        )
    if sitting.paper_waits is not None:
        marks = sitting.paper_waits.marks
        screen.line(f"A paper was broken off: drill sit --paper {marks} goes on with it.")
    if sitting.ended_here:
        about = sitting.ended_here.partition(" ")[2] or sitting.ended_here
        screen.line(f"The sitting you broke off ({about}) ends here; its answers are kept.")
    _offer(screen, store, who, now)
    tell_settled(screen, store, sitting.bank, who, now)
    _say_left_out(screen, store, sitting, who, now)
    if not first and not sitting.resumed:
        _open_the_day(screen, sitting, now)
    if sitting.resumed:
        number = len(sitting.done)
        so_far = f", after {counted(number, 'question')}" if number else ""
        screen.line(f"Going on where you stopped{so_far}.")
    screen.line("? for a hint · pass · stop · help tells the other words", style="dim")


def _offer(screen: Screen, store: Store, who: Learner, now: datetime) -> None:
    """Say once that marks came from another machine."""
    number = str(len(store.offered(who)))
    if number not in ("0", store.setting(who, OFFERS_TOLD)):
        marks = counted(int(number), "mark")
        screen.line(f"{marks} from a teacher or tutor came with a file: drill appeals accept")
        store.set_setting(who, OFFERS_TOLD, number, now)


def tell_settled(screen: Screen, store: Store, bank: Bank, who: Learner, now: datetime) -> None:
    """Tell once which marks a teacher or tutor has settled since, each with what it is about."""
    from drill.app.settled_marks import newly_settled

    found = newly_settled(store, bank, who, now)
    if not found:
        return
    by = "tutor" if all(one.by == "tutor" for one in found) else "teacher"
    screen.line(f"Your {by} has settled {counted(len(found), 'mark')}:", style="bold")
    for one in found[-_MOST_SETTLED:]:
        screen.item("question", one.ask or one.title)
        screen.item("you typed", one.typed or "(nothing)")
        stays = one.before in (None, one.marks)
        screen.item("marks", f"{one.marks} of {one.of}, as before" if stays else
                    f"{one.marks} of {one.of}, before {one.before}")  # fmt: skip
        if one.reply:
            screen.item(one.by, one.reply)
    if len(found) > _MOST_SETTLED:
        screen.line("The others are among your answers: drill answers")


def _say_left_out(
    screen: Screen, store: Store, sitting: Sitting, who: Learner, now: datetime
) -> None:
    """Say once of a deck what of it has nothing for the learner's course."""
    from drill.app.topics.left_out import for_pupil, left_out

    deck = sitting.deck
    says = for_pupil(left_out(deck, sitting.bank)) if deck.course else ""
    told = one_line(f"{deck.id}: {says}", 2000)
    if says and store.setting(who, LEFT_OUT_TOLD) != told:
        screen.line(says)
        store.set_setting(who, LEFT_OUT_TOLD, told, now)


def _seen_by_others() -> list[str]:
    """A line where others may look into the data folder."""
    from drill.app.data import folder_note

    return list(filter(None, [folder_note()]))


def _assumed(sitting: Sitting) -> list[str]:
    deck = sitting.deck
    lines = []
    if sitting.planner.exam is None:
        lines.append(
            "No exam date is set, so practice is always planned for the next four weeks. "
            "Set one with: drill plan --exam 2027-05-18"
        )
    if not any(topic.taught for topic in deck.topics):
        lines.append("All of it is taken as taught already.")
    lines.append(
        f"Course: {deck.course or 'any'}. Time: {deck.minutes_a_day} minutes a day. "
        "drill plan -h tells how to change them."
    )
    return lines


def _open_the_day(screen: Screen, sitting: Sitting, now: datetime) -> None:
    """Two lines, in words: how it went last time, and which topics come now."""
    from drill.app.opening import opening

    found = opening(sitting, now)
    if found is None:
        return
    went = [
        f"{' and '.join(skills)} {how}"
        for skills, how in ((found.well, "went well"), (found.wrong, "went wrong"))
        if skills
    ]
    if went:
        screen.line(f"Last time, on {found.last:%A}: {'; '.join(went)}.")
    if found.now:
        screen.line(f"Today: mostly {' and '.join(found.now)}.")
