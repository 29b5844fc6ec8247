"""A deck handed out as one file, and opened on a pupil's machine from wherever it lies."""

from __future__ import annotations

import contextlib
import shutil
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import blake2b
from pathlib import Path
from typing import TYPE_CHECKING

from drill.errors import DrillError
from drill.places import data_dir, private_folder, put, reason
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.exchange.handout import Settled
    from drill.model import Deck
    from drill.store import Store

FOLDER = "handouts"
_LARGEST = 8_000_000
"""Bytes of the file itself."""


@dataclass(frozen=True)
class MadeHandout:
    """A handout's file and what went into it: own questions, settled marks, bytes.

    `on_paper` are questions answered on paper, with their marks, for the pupils they are of.
    """

    path: str
    title: str
    questions: int
    settled: int
    size: int
    on_paper: int = 0


def handout_of(store: Store, deck: Deck, out: Path | None, now: datetime) -> MadeHandout:
    """Check a deck with its own questions, then write its handout beside where the caller is.

    Raises:
        DrillError: the deck or a question of it has faults; they are listed.
    """
    from drill.app.context import listed, note_handed_out, open_checked
    from drill.app.papers.paper_handout import marks_on_paper
    from drill.app.topics.deck_check import own_questions
    from drill.exchange.handout import SUFFIX

    faults, _ = own_questions(deck, open_checked(deck))
    if faults:
        raise DrillError(listed(faults))
    out = out or Path(f"{deck.id}{SUFFIX}")
    made = make_handout(deck, out, settled_here(store), marks_on_paper(store))
    note_handed_out(store, deck, now)
    return made


def settled_here(store: Store) -> tuple[Settled, ...]:
    """Marks that were settled on this machine, for the pupils whose answers they are."""
    from drill.app.classes.class_room import class_named, classes
    from drill.exchange.handout import Settled

    found: dict[str, Settled] = {}
    for learner in store.learners():
        for mark in store.marked(learner):
            verdict, answer = mark.answer.verdict, mark.answer.id.hex()
            if verdict is not None and verdict.settled and verdict.mark.points:
                points = {one.id: one.marks for one in verdict.mark.points}
                by = "tutor" if verdict.who == "tutor" else "teacher"
                found[answer] = Settled(answer, points, verdict.note or "", by)
    for name in classes():
        for answer, one in class_named(name).settled().items():
            found[answer] = Settled(answer, one.points, one.reply, one.by)
    return tuple(one for _, one in sorted(found.items()))


def make_handout(
    deck: Deck, out: Path, settled: tuple[Settled, ...], on_paper: str = ""
) -> MadeHandout:
    """Write a deck with the school's own questions, drawings, facts and word sets to one file.

    Samples, and what pupils typed, stay here; what was learned from samples goes along.

    Raises:
        DrillError: the file cannot be written, or the deck cannot be handed out as it is.
    """
    from drill.exchange.handout import ON_PAPER, packed

    own = _own_files(deck)
    marks = {ON_PAPER: on_paper} if on_paper else {}
    data = packed({"deck.toml": _deck_text(deck, bool(own)), **own, **marks}, settled)
    try:
        put(out, data)
    except OSError as error:
        raise DrillError(f"{out} cannot be written ({reason(error)}).") from None
    questions = sum(name.count("/") == 2 and name.endswith(".toml") for name in own)
    on_paper_lines = on_paper.count("\n")
    return MadeHandout(str(out), deck.title, questions, len(settled), len(data), on_paper_lines)


def _deck_text(deck: Deck, has_own: bool) -> str:
    """The deck's text; in a handout the school's own folder is always called own."""
    import tomlkit

    from drill.bank import deck_source

    text = deck_source(Path(deck.path))
    if not deck.own:
        return text
    made = tomlkit.parse(text)
    if has_own:
        made["own"]["templates"] = "own"
    else:
        del made["own"]
    return tomlkit.dumps(made)


def _own_files(deck: Deck) -> dict[str, str]:
    """{name in the handout: text} of the school's own questions and what they use."""
    if not deck.own:
        return {}
    from drill.app.context import open_bank
    from drill.bank import FITTED

    top = Path(deck.path).parent / deck.own
    mine = [entry for entry in open_bank(deck).entries() if entry.id.startswith("own/")]
    paths = {f"own/{'/'.join(entry.id.split('/')[2:])}.toml": Path(entry.path) for entry in mine}
    if mine:
        shared = (top / "lexicon.toml", top / FITTED, *top.glob("drawings/*.svg"))
        shared += tuple(top.glob("facts/*.csv"))
        paths |= {f"own/{path.relative_to(top).as_posix()}": path for path in shared}
    try:
        return {name: path.read_text("utf-8") for name, path in paths.items() if path.is_file()}
    except (OSError, UnicodeDecodeError) as error:
        raise DrillError(f"the school's own questions cannot be read ({reason(error)}).") from None


# ---------------------------------------------------------------- opening one


def opened_handout(path: Path) -> Path | None:
    """The deck of a handout, unpacked into the data folder; None when the file is none.

    It is kept under its content, so the same file is the same deck wherever it lay, and another
    one never takes its place.

    Raises:
        DrillError: it is damaged or hostile; nothing was written then.
    """
    from drill.exchange.handout import Refused, is_handout, unpacked

    try:
        with path.open("rb") as file:
            head = file.read(4)
            if not is_handout(head):
                return None
            data = head + file.read(_LARGEST)
        if len(data) > _LARGEST:
            raise Refused("it is larger than any handout.")
        files = unpacked(data)
        return _kept(files, blake2b(data, digest_size=12).hexdigest()) / "deck.toml"
    except Refused as error:
        raise DrillError(f"{one_line(str(path), 80)}: not opened, {error}") from None
    except OSError as error:
        raise DrillError(f"{one_line(str(path), 80)}: not opened ({reason(error)}).") from None


def _kept(files: Mapping[str, str], digest: str) -> Path:
    """The folder that holds exactly these files; made whole or not at all."""
    from tempfile import mkdtemp

    home = data_dir() / FOLDER
    private_folder(home)
    folder = home / digest
    if _holds(folder, files):
        return folder
    made = Path(mkdtemp(prefix=".", dir=home))
    try:
        for name, text in files.items():
            file = made / name
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(text.encode())
        if folder.exists():  # somebody changed what was kept
            shutil.rmtree(folder)
        made.rename(folder)
    finally:
        with contextlib.suppress(OSError):
            shutil.rmtree(made, ignore_errors=True)
    return folder


def _holds(folder: Path, files: Mapping[str, str]) -> bool:
    there = {one.relative_to(folder).as_posix() for one in folder.rglob("*") if one.is_file()}
    return there == set(files) and all(
        (folder / name).read_bytes() == text.encode() for name, text in files.items()
    )


def came_as_handout(deck: Deck) -> bool:
    """Whether a teacher handed the deck out to this machine."""
    return Path(deck.path).parent.parent.name == FOLDER


def _came_with(deck: Deck, name: str) -> str:
    """The text of a file that a handout brought beside its deck; "" where there is none."""
    file = Path(deck.path).parent / name
    return file.read_text("utf-8") if came_as_handout(deck) and file.is_file() else ""


def take_settled(store: Store, deck: Deck, now: datetime) -> int:
    """Take over marks that came with a handout, for answers that this machine holds.

    Returns:
        How many marks are new here.
    """
    from drill.exchange.handout import SETTLED, settled_of
    from drill.sitting import judge

    wanted = {one.answer: one for one in settled_of(_came_with(deck, SETTLED))}
    taken = 0
    for learner in store.learners() if wanted else ():
        for mark in store.marked(learner):
            one = wanted.get(mark.answer.id.hex())
            if one is not None and judge(store, mark, one.points, one.by, now, one.reply):
                taken += 1
    return taken


def take_paper(store: Store, deck: Deck, now: datetime) -> int:
    """Take over marks from paper that came with a handout, for learners of this machine.

    Returns:
        How many questions have marks that are new here.
    """
    from drill.app.context import open_bank
    from drill.app.papers.paper_handout import take_paper_marks
    from drill.exchange.handout import ON_PAPER

    lines = _came_with(deck, ON_PAPER)
    return take_paper_marks(store, open_bank(deck), deck.id, lines, now) if lines else 0
