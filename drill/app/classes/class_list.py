"""A teacher's class list: codes and names, read strictly, since marks are told by it.

A line a pupil, `code` or `code,name`; a line above them may name the columns, in either order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from drill.errors import DrillError
from drill.plaintext import one_line

_CODE = {"code", "codes", "pupil", "pupil code", "learner"}
_NAME = {"name", "names", "pupil name", "full name"}
_FORENAME, _SURNAME = {"forename", "first name", "given name"}, {"surname", "last name"}
_MOST_TOLD = 10
_WANTED = "A class list has a line a pupil: code, or code,name."


def read_list(path: Path) -> dict[str, str]:
    """{code in small letters: name}.

    Raises:
        DrillError: it cannot be read, or anything in it is in doubt; each doubt with its line.
    """
    from drill.app.papers.marks_table import table_in

    rows = table_in(str(path))
    columns = _columns(rows[0][1])
    if columns is not None:
        rows = rows[1:]
    doubts: list[str] = []
    found: dict[str, tuple[int, str]] = {}
    for line, cells in rows:
        pupil = _pupil(cells, columns)
        doubt = pupil if isinstance(pupil, str) else _twice(pupil[0], found)
        if doubt:
            doubts.append(f"line {line}: {doubt}")
        elif not isinstance(pupil, str):
            found[pupil[0].casefold()] = line, pupil[1]
    if not rows:
        doubts.append("nobody is in it.")
    if doubts:
        raise DrillError("\n".join(_told(path, doubts)))
    return {code: name for code, (_, name) in found.items()}


def code_in(listed: dict[str, str], given: str) -> str:
    """The code that a code or a name of the list stands for; itself where it is none.

    Raises:
        DrillError: several have the name.
    """
    wanted = " ".join(given.casefold().split())
    found = [code for code, name in listed.items() if " ".join(name.casefold().split()) == wanted]
    if wanted in listed or not wanted or not found:
        return given
    if len(found) > 1:
        raise DrillError(f'"{one_line(given, 40)}" is the name of {" and ".join(found)}.')
    return found[0]


def mixed_up(listed: dict[str, str], known: Iterable[str]) -> bool:
    """Whether the list's names are the codes that are known, and none of its codes is."""
    codes = {code.casefold() for code in known}
    names = {name.casefold() for name in listed.values()}
    return bool(codes & names) and not codes & set(listed)


def _columns(cells: Sequence[str]) -> dict[str, int] | None:
    """{what stands in a column: its place} where the first line tells; None where it does not.

    Raises:
        DrillError: it names columns that a class list does not have, or no codes.
    """
    heads = [" ".join(cell.casefold().split()) for cell in cells]
    kinds = {"code": _CODE, "name": _NAME, "forename": _FORENAME, "surname": _SURNAME}
    found = {
        kind: place
        for place, head in enumerate(heads)
        for kind, words in kinds.items()
        if head in words
    }
    if not found:
        return None
    odd = [cell for cell, head in zip(cells, heads, strict=True)
           if head and not any(head in words for words in kinds.values())]  # fmt: skip
    if odd or "code" not in found or len(found) < sum(map(bool, heads)):
        says = f'the column "{one_line(odd[0], 40)}" has no place there' if odd else ""
        says = says or ("no column is called code" if "code" not in found else "a column twice")
        raise DrillError(f"the class list, line 1: {says}. {_WANTED}")
    return found


def _pupil(cells: Sequence[str], columns: dict[str, int] | None) -> tuple[str, str] | str:
    """(code, name) of a line, or what is in doubt."""
    from drill.store.people import LONGEST_CODE, is_code

    given = [*cells, "", "", ""]
    if columns is None:
        code, name, more = given[0], given[1], any(given[2:])
    else:
        code = given[columns["code"]]
        places = [columns[kind] for kind in ("forename", "surname", "name") if kind in columns]
        name = " ".join(filter(None, (given[place] for place in places)))
        more = any(given[max(columns.values()) + 1 :])
    if more:
        return "more columns than code and name. Put quotes round a name with a comma in it."
    if not code:
        return f'"{one_line(name, 40)}" has no code.'
    if not is_code(code):
        return f'"{one_line(code, 40)}" is no code: up to {LONGEST_CODE} letters, digits and -.'
    if columns is None and is_code(name) and _has_digit(name) and not _has_digit(code):
        return f'"{one_line(name, 40)}" looks like the code: are the columns swapped?'
    return code, one_line(name, 80)


def _twice(code: str, found: dict[str, tuple[int, str]]) -> str:
    before = found.get(code.casefold())
    return f'"{one_line(code, 20)}" is in line {before[0]} already.' if before else ""


def _has_digit(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


def _told(path: Path, doubts: Sequence[str]) -> Iterator[str]:
    yield from (f"{one_line(str(path))}, {doubt}" for doubt in doubts[:_MOST_TOLD])
    if len(doubts) > _MOST_TOLD:
        yield f"… and {len(doubts) - _MOST_TOLD} more lines."
    yield f"{_WANTED} Put these right and try again."
