"""What is fuzzed: each format with the sound file it is spoilt from, and what reads it."""

from __future__ import annotations

import io
import json
import os
import zipfile
import zlib
from collections.abc import Callable, Iterator, Sequence
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, NamedTuple

from hypothesis import strategies as st

from drill.exchange import hand_in, handout
from drill.places import bank_dir
from tests.bench.fuzz_folder import (
    CLASS_LIST,
    DECK,
    FACTS,
    FILES,
    KEPT,
    OWN_FACTS,
    OWN_PICTURE,
    QUESTION,
    READINGS,
    SAMPLES,
    WORDS,
    text_of,
)
from tests.common.attacks import AT
from tests.common.classes import class_of
from tests.common.odd_values import NEEDED, ODD, commands
from tests.common.spoiling import TYPED, file_bytes, spoilt, spoilt_bytes, spoilt_json

NOW = ("--at", AT)
STOP = ("", "12.5 g", "stop", "stop", "stop")


class Command(NamedTuple):
    """A command line and what is typed."""

    words: tuple[str, ...]
    typed: Sequence[str] = ()


class Target(NamedTuple):
    """`made` makes what is spoilt; `commands` puts it in the folder and says what is run."""

    name: str
    made: st.SearchStrategy[Any]
    commands: Callable[[Path, Any], Iterator[Command]]
    seconds: float = 2.0


def in_file(name: str, place: str, sound: str, *runs: Command) -> Target:
    """A text file that stands at a place of the folder and is read by commands."""

    def run(folder: Path, data: bytes) -> Iterator[Command]:
        path = folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
        yield from runs

    return Target(name, file_bytes(sound), run)


def _later(
    name: str,
    place: str,
    made: Callable[[], st.SearchStrategy[Any]],
    *runs: Command,
    seconds: float = 2.0,
) -> Target:
    """The same for a file of the sound folder, which is there only later."""

    def run(folder: Path, data: bytes | str) -> Iterator[Command]:
        raw = data if isinstance(data, bytes) else data.encode("utf-8", "surrogatepass")
        (folder / place).write_bytes(raw)
        yield from runs

    return Target(name, st.deferred(made), run, seconds)


REREAD = 6.0
"""Seconds for a spoilt index: every question is read again, as at the very first start."""
CHECK = Command(("bank", "check", "school/questions", "--seeds", "2", "--jobs", "1"))
SIT = Command(("sit", "school/ours.toml", "--learner", "K7", *NOW), STOP)
DECKS = Command(("deck", "check", "school/ours.toml", *NOW))
HAND_OUT = Command(("deck", "handout", "school/ours.toml", "--out", "out.handout", *NOW))
TAKE = Command(("sit", "ours.handout", "--learner", "K7", *NOW), STOP)


# ---------------------------------------------------------------- files in other wrappings


def _handouts() -> st.SearchStrategy[bytes]:
    """A handout spoilt as bytes, or one of its files spoilt inside a sound zip."""
    inside = handout.unpacked(FILES["ours.handout"])
    inside[handout.SETTLED] = json.dumps(SETTLED) + "\n"
    inside[handout.ON_PAPER] = json.dumps(ON_PAPER) + "\n"
    one = st.sampled_from(sorted(inside)).flatmap(lambda name: _one_inside(inside, name))
    return one | one | one | spoilt_bytes(FILES["ours.handout"])


SETTLED = {"answer": "ab" * 16, "points": {"value": 1}, "reply": "Well argued.", "by": "teacher"}
ON_PAPER = {
    "learner": "ab" * 16,
    "paper": "p1",
    "at": "2027-01-12T17:00:00+00:00",
    "judged": "2027-01-12T17:00:00+00:00",
    "template": "salts/why-excess",
    "version": "0" * 32,
    "seed": 3,
    "parts": [["a", 1, "cd" * 16]],
}


def _one_inside(files: dict[str, str], name: str) -> st.SearchStrategy[bytes]:
    text = files[name]
    changed = file_bytes(text)
    if name.endswith(".jsonl") and text.strip():
        changed |= spoilt_json(text).map(str.encode)
    return changed.map(lambda data: _zip({**files, name: data}))


def _zip(files: dict[str, Any]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("handout.json", '{"drill": "handout", "format": 1}')
        for name, text in files.items():
            if name != "handout.json":
                archive.writestr(name, text)
    return out.getvalue()


_HEAD = b"drill hand-in 1\n"


@cache
def _pupil() -> tuple[bytes, str]:
    packed = hand_in.packed(class_of(1, 1, "safety.hazard", 8)[0])
    return packed, zlib.decompress(packed[len(_HEAD) + 16 :]).decode()


def _hand_ins() -> st.SearchStrategy[bytes]:
    """A hand-in spoilt as bytes, or its content spoilt under a digest that fits."""
    packed, content = _pupil()
    inside = (spoilt_json(content) | spoilt_json(content) | spoilt(content)).map(_sealed)
    return inside | inside | spoilt_bytes(packed)


def _sealed(content: str) -> bytes:
    body = zlib.compress(content.encode("utf-8", "surrogatepass"))
    return _HEAD + blake2b(body, digest_size=16).digest() + body


def _exports() -> st.SearchStrategy[Any]:
    text = FILES["k7.jsonl"].decode()
    return spoilt_json(text) | spoilt_json(text) | file_bytes(text)


def _sheets() -> st.SearchStrategy[Any]:
    head, most, blank = FILES["first-steps-1-marks.csv"].decode("utf-8-sig").splitlines()[:3]
    best = most.split(",")
    pupils = [",".join([code, blank.split(",")[1], *best[2:-1], ""]) for code in ("k01", "k02")]
    return file_bytes("\n".join([head, most, *pupils]) + "\n")


def _indexes() -> st.SearchStrategy[Any]:
    lines = _index()
    return file_bytes(lines) | spoilt_json(lines)


def _index() -> str:
    return (Path(os.environ["DRILL_HOME"]) / "bank-index.json").read_text("utf-8")


# ---------------------------------------------------------------- questions of the bank


def _of_the_bank() -> st.SearchStrategy[tuple[str, str]]:
    """A shipped question, of any kind of part, spoilt: (its folder, its text)."""
    paths = sorted(bank_dir().glob("*/*.toml"))
    return st.sampled_from(paths).flatmap(
        lambda path: spoilt(text_of(path)).map(lambda text: (path.parent.name, text))
    )


def _question(folder: Path, made: tuple[str, str]) -> Iterator[Command]:
    path = folder / "school" / "questions" / made[0] / "spoilt.toml"
    path.parent.mkdir(exist_ok=True)
    path.write_text(made[1], "utf-8", "surrogatepass", newline="")
    yield Command(("bank", "check", str(path), "--seeds", "2", "--jobs", "1"))
    yield Command(("bank", "show", str(path)))
    yield Command(("bank", "try", str(path)), ("a", "12", ""))
    yield Command(("bank", "upgrade", str(path)))


def _drawing() -> st.SearchStrategy[bytes]:
    return st.sampled_from(sorted((bank_dir() / "drawings").glob("*.svg"))).flatmap(
        lambda path: file_bytes(text_of(path))
    )


def _kept_files() -> st.SearchStrategy[tuple[str, bytes]]:
    """A file that the program keeps of a class, spoilt: (its name, its bytes)."""
    return st.sampled_from(sorted(KEPT)).flatmap(
        lambda name: _spoilt_kept(KEPT[name]).map(lambda data: (name, data))
    )


def _spoilt_kept(sound: bytes) -> st.SearchStrategy[bytes]:
    try:
        text = sound.decode()
        return file_bytes(text) | spoilt_json(text).map(str.encode)
    except ValueError:
        return spoilt_bytes(sound)


def _kept_file(folder: Path, made: tuple[str, bytes]) -> Iterator[Command]:
    (folder / made[0]).write_bytes(made[1])
    for words in ("class report", "class report --pupils", "class collect in", "class pupils",
                  "class export", "class join", "class erase k00 --yes", "appeals"):  # fmt: skip
        yield Command(tuple(words.split()))


def _samples() -> st.SearchStrategy[Any]:
    return file_bytes(SAMPLES) | spoilt_json(SAMPLES)


# ---------------------------------------------------------------- prompts and options


PROMPTS = (
    "sit --learner K7", "sit --learner K7 --sure --plain", "sit --learner NEW", "sit",
    "results --learner K7", "results --kind titres", "deck new", "deck try first-steps", "plan",
    "plan first-steps", "appeals", "appeals accept", "data erase K7", "class erase k00", "weak",
    "regrade salts/why-excess", "bank try salts/why-excess", "answers",
    "sit --paper 10 --learner K7",
)  # fmt: skip


def _prompted() -> st.SearchStrategy[Any]:
    return st.tuples(st.sampled_from(PROMPTS), st.lists(TYPED, min_size=1, max_size=25))


def _prompt(folder: Path, made: tuple[str, list[str]]) -> Iterator[Command]:
    words, typed = made
    yield Command(tuple(words.split()), [line.replace("\n", " ") for line in typed])


def _asked() -> st.SearchStrategy[Any]:
    names = [f"{path.parent.name}/{path.stem}" for path in sorted(bank_dir().glob("*/*.toml"))]
    return st.tuples(
        st.sampled_from(names), st.integers(0, 9), st.lists(TYPED, min_size=1, max_size=10)
    )


def _answer(folder: Path, made: tuple[str, int, list[str]]) -> Iterator[Command]:
    """A question of the bank, of any kind, answered at its prompts and through `drill mark`."""
    name, number, typed = made
    lines = [line.replace("\n", " ") for line in typed]
    yield Command(("bank", "try", name, "--seed", str(number), "--part", "a"), lines)
    rows = [
        json.dumps({"template": name, "seed": number, "part": "a", "answer": one}) for one in typed
    ]
    yield Command(("mark", "--json"), [*rows, *lines])


def _optioned() -> st.SearchStrategy[list[str]]:
    """A command line with several options, known or not, at once."""
    known = [(name, command.params) for name, command in commands() if name != "bank check"]
    return st.sampled_from(known).flatmap(lambda one: _line(*one))


def _line(name: str, params: Sequence[Any]) -> st.SearchStrategy[list[str]]:
    value = st.sampled_from(
        [*ODD, "K7", "first-steps", "10", "2027-03-01", "school", "in", "k7.jsonl", "."]
    )
    words = [st.just(name.split()), st.just(NEEDED.get(name, "").split())]
    for one in params:
        if one.name == "help" or one.opts[0] == "--workers" or one.opts[0] == "--cluster":
            continue
        if one.param_type_name == "argument":
            words.append(
                st.lists(value | TYPED, max_size=2).map(
                    lambda many: [w for w in many if w[:1] != "-"]
                )
            )
        elif getattr(one, "is_flag", False):
            words.append(st.sampled_from(([], [one.opts[0]])))
        else:
            given = (value | TYPED).map(lambda word, option=one.opts[0]: [f"{option}={word}"])
            words.append(st.just([]) | given)
    return st.tuples(*words).map(
        lambda many: [word.replace("\0", "") for part in many for word in part]
    )


def _options(folder: Path, made: list[str]) -> Iterator[Command]:
    yield Command(tuple(made), ("stop", "", "n", "stop"))


def _run(words: str, *typed: str) -> Command:
    return Command((*words.split(), *NOW), typed)


LIST = (
    in_file("decks", "school/ours.toml", DECK, DECKS, SIT, HAND_OUT,
            _run("plan school/ours.toml --learner K7")),
    Target("questions", st.deferred(_of_the_bank), _question),
    in_file("own-question", "school/questions/salts/mine.toml", QUESTION, CHECK, DECKS, SIT,
            HAND_OUT),
    _later("samples", "school/questions/salts/mine.answers.jsonl", _samples, CHECK),
    in_file("facts", f"school/questions/facts/{OWN_FACTS}.csv", FACTS, CHECK, SIT, HAND_OUT),
    in_file("word-sets", "school/questions/lexicon.toml", WORDS, CHECK, DECKS, SIT, HAND_OUT),
    _later("drawings", f"school/questions/drawings/{OWN_PICTURE}.svg", _drawing, CHECK, HAND_OUT,
           Command(("bank", "show", "school/questions/salts/excess.toml"))),
    _later("handouts", "ours.handout", _handouts, TAKE, _run("deck check ours.handout")),
    _later("hand-ins", "in/0.handin", _hand_ins, Command(("class", "collect", "in")),
           _run("class report"), Command(("appeals", "--json"))),
    in_file("class-list", "list.csv", CLASS_LIST,
            Command(("class", "collect", "in", "--list", "list.csv"))),
    _later("paper-marks", "first-steps-1-marks.csv", _sheets,
           _run("paper enter first-steps-1-marks.csv --new", "y", "y", "")),
    in_file("results-toml", "mine.toml", READINGS, Command(("results", "mine.toml", "--json")),
            _run("results mine.toml --learner K7", *STOP)),
    in_file("results-csv", "mine.csv", READINGS.replace(" = ", ","),
            Command(("results", "mine.csv", "--json"))),
    _later("exports", "k7.jsonl", _exports, Command(("data", "import", "k7.jsonl")),
           Command(("data", "import", "k7.jsonl", "--into", "Q9")), Command(("data", "verify")),
           SIT, _run("weak K7")),
    _later("bank-index", "home/bank-index.json", _indexes, Command(("bank", "list")), SIT,
           seconds=REREAD),
    Target("class-files", st.deferred(_kept_files), _kept_file),
    Target("answers", st.deferred(_asked), _answer),
    Target("prompts", st.deferred(_prompted), _prompt),
    Target("options", st.deferred(_optioned), _options),
)  # fmt: skip
TARGETS = {target.name: target for target in LIST}
