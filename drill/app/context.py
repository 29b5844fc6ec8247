"""What a use case works on: the opened store, the bank, a topic deck and a learner on this machine.

The one module that knows which files they are. A command enters `open_store()` and hands store and
bank on.
"""

from __future__ import annotations

from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from drill.errors import DrillError, Problem
from drill.places import bank_dir, data_dir, demo_decks_dir

if TYPE_CHECKING:
    from datetime import datetime

    from drill.bank import Bank
    from drill.model import Deck, Skill
    from drill.store import Learner, Store

__all__ = [
    "FIRST_DECK",
    "Bank",
    "Learner",
    "Store",
    "deck_called",
    "deck_file",
    "deck_files",
    "deck_of",
    "existing_learner",
    "find_deck",
    "handed_out",
    "is_for_any_course",
    "listed",
    "note_handed_out",
    "open_bank",
    "open_bank_of_all",
    "open_checked",
    "open_store",
    "place_of",
    "skill_names",
    "store_file",
]

FIRST_DECK = "first-steps"


def open_store(reading: bool = False) -> Store:
    """The store in the data folder; it is made when it is not there.

    `reading`: nothing will be stored, so it may lie where nothing can be written.
    """
    from drill.store import Store

    return Store.open(store_file(), reading)


def store_file() -> Path:
    """Where the store is, or will be."""
    return data_dir() / "drill.db"


def open_bank(*decks: Deck) -> Bank:
    """The shipped bank, with the own questions of those decks that name a folder of them."""
    from drill.bank import Bank

    own = tuple((deck.id, Path(deck.path).parent / deck.own) for deck in decks if deck.own)
    return Bank.open(bank_dir(), cache=_index_file(), own=own)


def skill_names() -> dict[str, Skill]:
    """The skills by id, without a look at any question."""
    from drill.bank import Bank

    return Bank(bank_dir()).skills()


def _index_file() -> Path | None:
    """Where the bank's index is kept; None without a data folder, which no bank needs."""
    try:
        return data_dir() / "bank-index.json"
    except DrillError:
        return None


def open_bank_of_all(store: Store, *names: str) -> Bank:
    """The bank with the own questions of every deck known here.

    Known are the decks in the data folder, those that learners of this store use, those that were
    handed out from here, and `names`.

    Raises:
        DrillError: a deck in `names` is not there or has problems; others are passed over.
    """
    wanted = {deck.path: deck for deck in map(find_deck, names)}
    used = {store.setting(learner, "deck") for learner in store.learners()}
    for name in sorted({*deck_files(), *filter(None, used), *handed_out(store)}):
        try:
            deck = find_deck(name)
        except DrillError:
            continue
        wanted.setdefault(deck.path, deck)
    return open_bank(*wanted.values())


_HANDED_OUT = "handed out"
_MOST_HANDED_OUT = 40


def handed_out(store: Store) -> list[str]:
    """Where the decks are that were handed out from this machine."""
    return (store.setting(None, _HANDED_OUT) or "").splitlines()


def deck_called(store: Store, id: str) -> str:
    """Where the deck with that id is, of those handed out from here or lying here; else ""."""
    for place in reversed(handed_out(store)):
        with suppress(DrillError):
            if find_deck(place).id == id:
                return place
    return id if id in deck_files() else ""


def note_handed_out(store: Store, deck: Deck, now: datetime) -> None:
    """Remember a deck that was handed out: its own questions are needed when work returns."""
    place, known = place_of(deck), handed_out(store)
    if place not in known:
        paths = "\n".join([*known, place][-_MOST_HANDED_OUT:])
        store.set_setting(None, _HANDED_OUT, paths, now)


def deck_files() -> dict[str, Path]:
    """`{id: file}` of the decks in the data folder and of the shipped demo decks."""
    folders = [demo_decks_dir()]
    with suppress(DrillError):  # without a data folder there are the shipped ones
        folders.append(data_dir() / "decks")
    return {path.stem: path for folder in folders for path in sorted(folder.glob("*.toml"))}


def deck_file(name: str) -> Path:
    """The file of a deck, by id, as the file itself, or as a handout, which is unpacked.

    Raises:
        DrillError: there is none, or the handout is damaged.
    """
    path, known = Path(name), deck_files()
    if path.is_file() and (path.suffix == ".toml" or name not in known):
        if path.suffix == ".toml":
            return path
        from drill.app.topics.handouts import opened_handout

        return opened_handout(path) or path
    if name not in known:
        raise DrillError(f'no topic deck "{name}". There are: {", ".join(sorted(known))}.')
    return known[name]


def find_deck(name: str) -> Deck:
    """The deck with that id or file.

    Raises:
        DrillError: there is none, or its file has problems (all of them are listed).
    """
    from drill.bank import read_deck

    deck = read_deck(deck_file(name))
    if isinstance(deck, tuple):
        raise DrillError(listed(deck))
    return deck


def listed(problems: Iterable[Problem]) -> str:
    """Problems a line each, in order of place."""
    return "\n".join(str(problem) for problem in sorted(problems))


def existing_learner(store: Store, code: str) -> Learner:
    """The learner with that code; without a code the only one, or the one who sat last.

    Raises:
        DrillError: nobody has that code, or nobody is here yet.
    """
    learners = store.learners()
    if code:
        for learner in learners:
            if learner.code.casefold() == code.casefold():
                return learner
        names = ", ".join(sorted(learner.code for learner in learners)) or "nobody yet"
        raise DrillError(f'no learner "{code}" here. There is: {names}.')
    if not learners:
        raise DrillError("nobody has practised here yet. Start with: drill sit")
    last = store.setting(None, "last learner")
    return next((who for who in learners if who.code == last), learners[0])


def deck_of(store: Store, learner: Learner, name: str) -> Deck:
    """The deck named, else the one this learner used last, else the one for first steps.

    Of a deck for several courses it is the learner's own, once they have said which that is.

    Raises:
        DrillError: it is not there, or not there any more: no other one is opened in its place.
    """
    kept = store.setting(learner, "deck")
    try:
        deck = find_deck(name or kept or FIRST_DECK)
    except DrillError as error:
        if name or not kept:
            raise
        raise DrillError(
            f"{error} {learner.code} used it last. Name another: drill sit TOPICS"
        ) from None
    from drill.frozen import replace
    from drill.model import COURSES

    if is_for_any_course(deck):
        deck = replace(deck, courses=COURSES)
    return deck.for_course(store.setting(learner, "course") or "")


def is_for_any_course(deck: Deck) -> bool:
    """Whether it came with the program: its course is only what is taken until somebody says."""
    return Path(deck.path).parent == demo_decks_dir()


def place_of(deck: Deck) -> str:
    """What to store of a deck so that it is found from any folder: its id, or its whole path."""
    path = Path(deck.path).resolve()
    known = deck_files().get(deck.id)
    return deck.id if known is not None and known.resolve() == path else str(path)


def open_checked(deck: Deck) -> Bank:
    """The bank for a deck, after checking the deck against it.

    Raises:
        DrillError: a practical is misspelt or has nothing for the course, or nothing is asked.
    """
    from drill.bank import read_deck

    bank = open_bank(deck)
    against = read_deck(Path(deck.path), bank)
    if isinstance(against, tuple):
        errors = [problem for problem in against if problem.level == "error"]
        if errors:
            raise DrillError(listed(errors))
    return bank
