"""A sitting on one thing: the practical, topic or skill somebody names, or what went wrong lately.

The learner's deck is narrowed, so that course, dates and minutes stay theirs.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

from drill.app.context import deck_files
from drill.errors import DrillError
from drill.frozen import replace
from drill.model import Topic
from drill.plaintext import nearest, one_line

if TYPE_CHECKING:
    from drill.bank import Bank, Entry
    from drill.model import Deck, Skill
    from drill.store import AskingRow, Learner, Store

LATELY = timedelta(days=14)
AGAIN = "again"


def is_deck(name: str) -> bool:
    """Whether the words name a deck, by id or as a file, a handout among them."""
    if name.endswith((".toml", ".handout")) or name in deck_files():
        return True
    return any(sign in name for sign in "./\\") and Path(name).is_file()


def narrowed(deck: Deck, bank: Bank, words: str) -> Deck:
    """The deck with nothing in it but what the words name.

    Args:
        words: a practical by its id or title, a topic or a skill as screens name them.

    Raises:
        DrillError: nothing is called so, or the learner's course has no question on it.
    """
    wanted = " ".join(words.casefold().replace("-", " ").split())
    found = _practical(bank, wanted) or _skills(bank, wanted)
    if found is None:
        raise DrillError(_unknown(bank, words))
    title, topic = found
    return _with(deck, bank, title, f"{deck.id} {wanted}"[:80], (topic,))


def is_narrowed(deck: Deck) -> bool:
    """Whether it is a deck with one thing in it: no id of a whole deck holds a space."""
    return " " in deck.id


def check_words(bank: Bank, words: str) -> None:
    """See that the words name something, before anybody is asked anything.

    Raises:
        DrillError: they name nothing.
    """
    wanted = " ".join(words.casefold().replace("-", " ").split())
    if _practical(bank, wanted) is None and _skills(bank, wanted) is None:
        raise DrillError(_unknown(bank, words))


def _practical(bank: Bank, wanted: str) -> tuple[str, Topic] | None:
    for one in bank.practicals().values():
        if wanted in (one.id.replace("-", " "), one.title.casefold()):
            return one.title, _topic(practical=one.id)
    return None


def _skills(bank: Bank, wanted: str) -> tuple[str, Topic] | None:
    """A topic or skill of that very name; else every one in whose name all the words stand."""
    skills = bank.skills().values()
    first = {entry.skills[0] for entry in bank.entries() if entry.skills}
    for name_of in (_family, _says):
        named = [one for one in skills if name_of(one).casefold() == wanted and one.id in first]
        if named:
            return name_of(named[0]), _topic(skills=tuple(one.id for one in named))
    titled = [one for one in bank.practicals().values() if _all_in(wanted, one.title)]
    if len(titled) == 1:
        return titled[0].title, _topic(practical=titled[0].id)
    near = [
        one for one in skills if _all_in(wanted, f"{one.says} {one.family}") and one.id in first
    ]
    return (wanted, _topic(skills=tuple(one.id for one in near))) if near else None


def _family(skill: Skill) -> str:
    return skill.family


def _says(skill: Skill) -> str:
    return skill.says


def _all_in(wanted: str, name: str) -> bool:
    words = set(name.casefold().replace("-", " ").split())
    return all(any(word.startswith(one) for word in words) for one in wanted.split())


def _topic(practical: str = "", skills: tuple[str, ...] = ()) -> Topic:
    return Topic(practical, skills, (), "", "", Fraction(1), 0)


def _with(deck: Deck, bank: Bank, title: str, id: str, topics: tuple[Topic, ...]) -> Deck:
    from drill.sitting import topic_of

    paper = deck.papers[0].id if deck.papers else ""
    topics = tuple(replace(topic, paper=paper) for topic in topics)
    found = replace(deck, id=id, title=title[:1].upper() + title[1:], topics=topics)
    if not any(topic_of(found, entry) for entry in bank.entries()):
        raise DrillError(
            f'there is no question on "{one_line(title, 60)}" for {deck.course or "any course"}.'
        )
    return found


def _unknown(bank: Bank, words: str) -> str:
    practicals = {one.id: one.title for one in bank.practicals().values()}
    names = {*practicals, *practicals.values()}
    names |= {name for one in bank.skills().values() for name in (one.says, one.family) if name}
    near = nearest(words, names)
    meant = f' Did you mean "{near}"?' if near else ""
    return (
        f'no topic deck, practical, topic or skill is called "{one_line(words, 60)}".{meant} '
        f"Practicals: {', '.join(practicals)}. Decks: {', '.join(sorted(deck_files()))}."
    )


# ---------------------------------------------------------------- what went wrong lately


def again(deck: Deck, bank: Bank, store: Store, who: Learner, now: datetime) -> Deck:
    """The deck with only the questions missed in the last two weeks and not put right since.

    Raises:
        DrillError: nothing went wrong.
    """
    wrong = set(_went_wrong(store.askings(who, now - LATELY)))
    entries = [entry for entry in bank.entries() if entry.id in wrong and entry.ok]
    if not entries:
        raise DrillError("nothing went wrong in the last two weeks that is not put right by now.")
    skills = tuple(sorted({entry.skills[0] for entry in entries}))
    topic = replace(_topic(skills=skills), without=tuple(_others(bank.entries(), skills, wrong)))
    return _with(deck, bank, "What went wrong lately", f"{deck.id} {AGAIN}", (topic,))


def _went_wrong(askings: Iterable[AskingRow]) -> list[str]:
    """Templates whose latest asking lost marks."""
    latest: dict[str, bool] = {}
    for asking in askings:
        marks = [answer.mark for answer in asking.answers if answer.mark and answer.kind != "hint"]
        if marks and not (asking.shown or asking.faulty):
            latest[asking.template] = any(mark.marks < mark.of for mark in marks)
    return [template for template, missed in latest.items() if missed]


def _others(entries: Iterable[Entry], skills: tuple[str, ...], wanted: set[str]) -> list[str]:
    return [
        one.id for one in entries if one.skills and one.skills[0] in skills and one.id not in wanted
    ]
