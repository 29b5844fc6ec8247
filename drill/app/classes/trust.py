"""The answers of many schools: Parquet by school and term, added up on one core or a cluster.

The same sums as a class report, so the same numbers. The engine is Dask: plain functions on plain
files, no server, and the same call on a laptop's cores and on a cluster's address. Rows lie in
buckets of pupils, so that a task holds few of them at a time and all of each one's terms.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_type_hints
from zlib import crc32

from drill.app.classes.class_report import ClassSkill, OddItem, WeekRow, odd_of, skills_of, weeks_of
from drill.app.classes.class_sums import Answer, ClassSums, pupil_sums
from drill.errors import DrillError
from drill.plaintext import one_line

if TYPE_CHECKING:
    from drill.app.classes.class_room import ClassRoom
    from drill.model import Skill

BUCKETS = 32
_A_TASK = 8
_FAN = 8
"""Sums are put together so many at a time, in an order that no number of workers changes."""
_COLUMNS = ("pupil", *Answer._fields)


@dataclass(frozen=True)
class TrustReport:
    """A trust of schools: how many, skills from the least secure, weeks, odd questions."""

    schools: int
    pupils: int
    answers: int
    skills: tuple[ClassSkill, ...]
    weeks: tuple[WeekRow, ...]
    odd: tuple[OddItem, ...]


def write_answers(room: ClassRoom, folder: Path, school: str, term: str) -> Path:
    """Write a class's answers, without names or what was typed, below a trust's folder.

    Raises:
        DrillError: the extra is missing, or a name cannot be a folder's.
    """
    for says in (school, term):
        plain = says.replace("-", "").replace("_", "")
        if not (plain.isascii() and plain.isalnum() and len(says) <= 60):
            raise DrillError(f'"{one_line(says, 60)}": school and term are letters, digits and -.')
    from drill.app.classes.class_room import answer_of

    rows = ((code, answer_of(row)) for code, one in room.handed_in() for row in one.rows)
    return write_rows(rows, folder, school, term, room.folder.name)


def write_rows(
    rows: Iterable[tuple[str, Answer]], folder: Path, school: str, term: str, name: str
) -> Path:
    """Rows of (pupil, answer) as one file of a school's term."""
    arrow, parquet = _arrow()
    buckets: dict[int, list[tuple[Any, ...]]] = defaultdict(list)
    for pupil, one in rows:
        buckets[_bucket(pupil)].append((pupil, *one))
    place = folder / f"school={school}" / f"term={term}"
    place.mkdir(parents=True, exist_ok=True)
    path = place / f"{name}.parquet"
    schema = _schema(arrow)
    with parquet.ParquetWriter(path, schema) as writer:
        for number, several in sorted(buckets.items()):
            columns = [[number] * len(several), *map(list, zip(*several, strict=True))]
            writer.write_table(arrow.Table.from_arrays(
                [arrow.array(one, kind.type) for one, kind in zip(columns, schema, strict=True)],
                schema=schema,
            ))  # fmt: skip
    return path


def _bucket(pupil: str) -> int:
    return crc32(pupil.encode()) % BUCKETS


def _schema(arrow: Any) -> Any:
    kinds = {int: arrow.int64(), str: arrow.string(), bool: arrow.bool_()}
    hints = get_type_hints(Answer)
    fields = [("bucket", arrow.int8()), ("pupil", arrow.string())]
    fields += [(name, kinds[hints[name]]) for name in Answer._fields]
    return arrow.schema(fields)


# ---------------------------------------------------------------- adding up


def trust_report(
    folder: Path, says: Mapping[str, Skill], workers: int = 0, cluster: str = ""
) -> TrustReport:
    """Add up every school below a folder.

    Args:
        says: the skills by id, for their names.
        workers: processes on this machine; 0 or 1 works in this one.
        cluster: the address of a Dask scheduler that sees the same folder, instead.

    Raises:
        DrillError: the extra is missing, or nothing is there.
    """
    schools = sorted(path.name for path in folder.glob("school=*") if path.is_dir())
    if not schools:
        raise DrillError(f"{one_line(str(folder))}: no school is there. drill class share writes.")
    sums = add_up(folder, schools, workers, cluster)
    return TrustReport(
        len(schools), sums.pupils, sums.answers, skills_of(sums, says), weeks_of(sums), odd_of(sums)
    )


def add_up(folder: Path, schools: Sequence[str], workers: int = 0, cluster: str = "") -> ClassSums:
    """The sums of these schools, the same to the last digit on one worker or many."""
    dask = _extra("dask")
    delayed = dask.delayed
    _extra("pyarrow")
    parts = [
        delayed(school_sums)(str(folder / school), range(first, first + _A_TASK))
        for school in schools
        for first in range(0, BUCKETS, _A_TASK)
    ]
    while len(parts) > 1:
        lots = [parts[start : start + _FAN] for start in range(0, len(parts), _FAN)]
        parts = [delayed(together)(lot) for lot in lots]
    if cluster:
        with _extra("distributed").Client(cluster) as client:
            found = client.compute(parts[0]).result()
    else:
        scheduler = {"scheduler": "processes", "num_workers": workers}
        (found,) = dask.compute(parts[0], **(scheduler if workers > 1 else {"scheduler": "sync"}))
    assert isinstance(found, ClassSums)
    return found


def school_sums(school: str, buckets: Sequence[int]) -> ClassSums:
    """Some of a school's pupils, all their terms; an answer told twice counts once."""
    sums = ClassSums()
    for bucket in buckets:  # one after the other: few rows are in memory at a time
        for answers in _pupils(Path(school), bucket):
            sums.add(pupil_sums(answers))
    return sums


def _pupils(school: Path, bucket: int) -> Iterator[Iterable[Answer]]:
    _, parquet = _arrow()
    pupils: dict[str, dict[str, Answer]] = defaultdict(dict)
    for path in sorted(school.glob("term=*/*.parquet")):
        table = parquet.ParquetFile(path)
        for number in range(table.num_row_groups):
            low = table.metadata.row_group(number).column(0).statistics
            if low is not None and low.min != bucket:
                continue
            columns = table.read_row_group(number, list(_COLUMNS)).to_pydict()
            rows = map(Answer._make, zip(*(columns[name] for name in Answer._fields), strict=True))
            for pupil, one in zip(columns["pupil"], rows, strict=True):
                pupils[pupil][one.id] = one
    for pupil in sorted(pupils):
        yield pupils[pupil].values()


def together(several: Sequence[ClassSums]) -> ClassSums:
    """Sums put together, in their order."""
    whole = ClassSums()
    for one in several:
        whole.merge(one)
    return whole


def _arrow() -> tuple[Any, Any]:
    return _extra("pyarrow"), _extra("pyarrow.parquet")


def _extra(name: str) -> Any:
    """A library of the extra; they are large, and few need them."""
    try:
        return import_module(name)
    except ImportError as error:
        says = "this needs the extra: python -m pip install 'drill[trust]'"
        raise DrillError(says) from error
