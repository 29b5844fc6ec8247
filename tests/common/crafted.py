"""Import files made to do harm, in many classes.

A class changes the records of a learner (whose checksums are then made to fit), or the lines they
are told in. A bench runs hundreds, the tests one of each class.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from random import Random
from typing import Any

from drill.bank.version import version_of
from drill.exchange.telling import statements
from drill.store import Record

HOSTILE: list[Any] = [
    "", "nan", "inf", "banana", "\x1b[2J\x1b]0;x\x07", "\u202e", "x" * 5000, "[" * 3000, "null",
    "[]", "{}", '{"questions": Infinity}', '{"minutes": -1}', '[["value",1,1]]', "1/0", "9" * 5000,
    -1, 0, 1, 1001, 2**31, 2**62, 2**63 - 1, -(2**63), 253402300799000, -62135596800000, None,
    "../../../etc", "salts/\0x", "a b c", "teacher", "paper", "learner", b"0" * 16, b"", True, 1.5,
    '{"questions": 1e400}', "2027-13-45", "9999-12-31", "0001-01-01",
]  # fmt: skip
SETTINGS = {
    "exam": ("banana", "9999-12-31", "2027-02-02", "0001-01-01", ""),
    "minutes": ("nan", "inf", "1e400", "-5", "0x10", "240"),
    "deck": ("/etc/passwd", "../../x", "no-such-deck", "\x1b[2J", "x" * 4000),
    "sure": ("maybe", "yes"),
    "greeted": ("no", "\0"),
    "last learner": ("Q9",),
    "code here": ("Q9", "x"),
    "rows lost": ("99",),
    "backup folder": ("/",),
    "nonsense": ("1",),
}
TIMES = (-62135596800000, 253402300799000, 0, 946684799999, 4133980800000, 2**53, 4070908800000)
TEXTS = (
    "", "format = 1", "\0", "[" * 4000, "a = " + "[" * 900, "x = 1\n" * 20_000,
    'skills = ["salts.excess"]\n[[part]]\nkind = "number"\nvalue = "9**9**9**9"\n',
    'skills = ["calc.percentage-yield"]\n' + '[[part]]\nkind = "choice"\n' * 5000,
    'skills = [1, {}]\npart = 5\n', 'skills = "x"\n[[part]]\noption = [1, 2]\n',
    'skills = ["\\u001b[2J"]\n[[part]]\nkind = "\\u001b]0;x\\u0007"\n',
)  # fmt: skip

Records = list[Record]


def _with(record: Record, **values: Any) -> Record:
    return Record(record.table, {**record.values, **values})


def _some(records: Records, chance: Random, *tables: str) -> int:
    """The place of a record of one of these tables, or of any."""
    places = [n for n, one in enumerate(records) if not tables or one.table in tables]
    return chance.choice(places or range(len(records)))


# ---------------------------------------------------------------- changed records


def values(mine: Records, others: Records, chance: Random) -> Records:
    for _ in range(chance.choice((1, 2, 5))):
        place = _some(mine, chance)
        column = chance.choice(sorted(mine[place].values))
        mine[place] = _with(mine[place], **{column: chance.choice(HOSTILE)})
    return mine


def borrowed(mine: Records, others: Records, chance: Random) -> Records:
    """Ids, texts and numbers of somebody else's rows."""
    for _ in range(chance.choice((1, 2, 5))):
        place = _some(mine, chance)
        column = chance.choice(sorted(mine[place].values))
        same = [one for one in others if one.table == mine[place].table] or others
        value = chance.choice(same).values.get(column, mine[place].values[column])
        mine[place] = _with(mine[place], **{column: value})
    return mine


def forged(mine: Records, others: Records, chance: Random) -> Records:
    """New rows about somebody else's rows."""
    for _ in range(3):
        record = others[_some(others, chance)]
        more = {"judge": "teacher"} if record.table == "verdict" else {}
        new = {"id": chance.randbytes(16), **more} if "id" in record.values else {}
        mine.insert(chance.randrange(len(mine) + 1), _with(record, **new))
    return mine


def same_ids(mine: Records, others: Records, chance: Random) -> Records:
    """Somebody else's rows under their own ids, with other content."""
    for _ in range(4):
        record = others[_some(others, chance, "answer", "verdict", "setting", "learner_name")]
        column = chance.choice([name for name in record.values if name not in ("id", "learner")])
        mine.append(_with(record, **{column: chance.choice(HOSTILE)}))
    return mine


def settings(mine: Records, others: Records, chance: Random) -> Records:
    record = next(one for one in mine if one.table == "setting")
    for _ in range(chance.choice((1, 3, 9))):
        name = chance.choice(sorted(SETTINGS))
        new = {"name": name, "value": chance.choice(SETTINGS[name]), "id": chance.randbytes(16)}
        mine.append(_with(record, **new, count=chance.choice((None, 0, 2**62))))
    return mine


def codes(mine: Records, others: Records, chance: Random) -> Records:
    place = _some(mine, chance, "learner_name")
    code = chance.choice(["Q9", "q9", "", "-", "x" * 99, "\x1b[2J", "K7\nQ9", "К7", "K-7", None, 7])
    new = {"code": code, "id": chance.randbytes(16), "count": chance.choice((None, 2**62))}
    mine.append(_with(mine[place], **new))
    return mine


def times(mine: Records, others: Records, chance: Random) -> Records:
    for _ in range(chance.choice((1, 5, 40))):
        place = _some(mine, chance)
        if "at" in mine[place].values:
            new = {"at": chance.choice(TIMES), "zone": chance.choice((0, 0, 1439, -1440, 10**6))}
            mine[place] = _with(mine[place], **new)
    return mine


def places(mine: Records, others: Records, chance: Random) -> Records:
    for n, record in enumerate(mine):
        if "count" in record.values and chance.random() < 0.5:
            mine[n] = _with(record, count=chance.choice((0, 2**62, 2**62 + 1, 2**63 - 1, -1)))
    return mine


def texts(mine: Records, others: Records, chance: Random) -> Records:
    """Planted texts of questions, under the hash of another text or under their own."""
    text, own = chance.choice(TEXTS), chance.random() < 0.6
    n = _some(mine, chance, "template_version")
    before, new = mine[n].values, {"text": text}
    if own:
        new |= {"hash": version_of(text, [], {}), "rows": "[]", "slips": "{}"}
    mine[n] = _with(mine[n], **new)
    for m, record in enumerate(mine):
        if record.table == "asking" and record.values["hash"] == before["hash"] and own:
            mine[m] = _with(record, hash=new["hash"])
    return mine


def facts(mine: Records, others: Records, chance: Random) -> Records:
    n = _some(mine, chance, "template_version")
    column = chance.choice(("rows", "slips"))
    spoilt = [
        "[]",
        "{}",
        "null",
        "[" * 900 + "]" * 900,
        '[{"cells": {"a": "9**9**9 g 1"}}]',
        "1e400",
    ]
    mine[n] = _with(mine[n], **{column: chance.choice(spoilt)})
    return mine


def marks(mine: Records, others: Records, chance: Random) -> Records:
    for _ in range(3):
        n = _some(mine, chance, "verdict")
        mine[n] = _with(mine[n], **chance.choice([
            {"points": '[["value", 1000, 1000]]', "marks": 1000, "of": 1000},
            {"points": '[["value", "1", 1]]'}, {"points": "[1, 2]"},
            {"points": '[["a",1,1,"b","c"]]'},
            {"points": '[["a", true, 1]]'}, {"points": '[[["a"], 1, 1]]'}, {"unsure": '[["a"]]'},
            {"unsure": '["value"]', "points": "[]"}, {"marks": 0, "of": 0}, {"value": "1/0"},
            {"value": "9" * 3000}, {"slip": "\x1b[2J"}, {"judge": "teacher"}, {"judge": "engine "},
            {"points": json.dumps([["x" * 90_000, 1, 1]])}, {"marker": "x" * 5000},
        ]))  # fmt: skip
    return mine


def accepted(mine: Records, others: Records, chance: Random) -> Records:
    """A teacher's marks that the pupil accepted for the teacher."""
    origin = next((r.values["origin"] for r in others if r.values.get("origin")), None)
    for record in [one for one in mine if one.table == "verdict"]:
        id = chance.randbytes(16)
        mine.append(_with(record, id=id, judge="teacher", marks=record.values["of"], origin=origin))
        stamp = {name: record.values[name] for name in ("at", "zone")}
        told = {"id": chance.randbytes(16), "verdict": id, "origin": origin, "count": None}
        mine.append(Record("acceptance", {**told, **stamp}))
    return mine


def many(mine: Records, others: Records, chance: Random) -> Records:
    """Thousands of rows of one kind."""
    record = mine[_some(mine, chance, "setting", "appeal", "learner_name", "sitting_end", "answer")]
    return [*mine, *(_with(record, id=chance.randbytes(16)) for _ in range(1500))]


def left_out(mine: Records, others: Records, chance: Random) -> Records:
    return [one for one in mine if chance.random() < 0.6] or mine


def unnamed(mine: Records, others: Records, chance: Random) -> Records:
    """Nothing that names a learner: marks, appeals and notes on somebody else's answers."""
    about = [one for one in others if "learner" not in one.values and "id" in one.values]
    return [
        _with(
            one, id=chance.randbytes(16), **({"judge": "engine"} if "judge" in one.values else {})
        )
        for one in about
    ]


def two_owners(mine: Records, others: Records, chance: Random) -> Records:
    """A few lines of somebody else's, told under their own code."""
    return [*mine, *(_with(one, id=chance.randbytes(16)) for one in others if "id" in one.values)]


def turned_round(mine: Records, others: Records, chance: Random) -> Records:
    versions = [one for one in mine if one.table == "template_version"]
    return [*reversed([one for one in mine if one.table != "template_version"]), *versions]


def mixed(mine: Records, others: Records, chance: Random) -> Records:
    """Somebody else's history among one's own, all under one's own code."""
    more = chance.sample(others, min(len(others), len(mine) // 3))
    return [*mine, *(_with(one, id=chance.randbytes(16)) for one in more if "id" in one.values)]


RECORDS = (
    values, borrowed, forged, same_ids, settings, codes, times, places, texts, facts, marks,
    accepted, many, left_out, turned_round, mixed, unnamed, two_owners,
)  # fmt: skip


# ---------------------------------------------------------------- changed lines


def encoded(lines: list[bytes], chance: Random) -> list[bytes]:
    whole = b"\n".join(lines).decode()
    return [whole.encode(chance.choice(["utf-16", "utf-8-sig", "utf-32"]))]


def cut(lines: list[bytes], chance: Random) -> list[bytes]:
    return [line[: chance.randrange(1, len(line))] if chance.random() < 0.3 else line
            for line in lines]  # fmt: skip


def noisy(lines: list[bytes], chance: Random) -> list[bytes]:
    made = [bytearray(line) for line in lines]
    for line in made:
        if chance.random() < 0.5:
            line[chance.randrange(len(line))] = chance.randrange(256)
    return [bytes(line) for line in made]


def nested(lines: list[bytes], chance: Random) -> list[bytes]:
    deep = [b"[" * 100_000, b'{"a":' * 50_000, b"[" * 900 + b"]" * 900, b"1" * 100_000, b"NaN"]
    return [
        *lines,
        *deep,
        chance.choice(lines).replace(b'{"', b'{"a":' + b"[" * 990 + b"]" * 990 + b',"', 1),
    ]


def keys(lines: list[bytes], chance: Random) -> list[bytes]:
    """Keys said twice, numbers no integer holds, lines within lines."""
    line = chance.choice(lines)
    return [
        *lines,
        line[:-1] + b"," + line[1:],
        line.replace(b":1", b":1e999"),
        line.replace(b":1", b":" + b"9" * 5000),
        b"[" + line + b"]",
        json.dumps(line.decode()).encode(),
    ]


def actors(lines: list[bytes], chance: Random) -> list[bytes]:
    """Lines said to be somebody else's, or nobody's."""
    name = chance.choice([b"Q9", b"", b"ZZ", b"x" * 500, b"\\u001b[2J", b"q9"])
    return [line.replace(b'"name": "K7"', b'"name": "' + name + b'"')
            if chance.random() < 0.5 else line for line in lines]  # fmt: skip


def doubled(lines: list[bytes], chance: Random) -> list[bytes]:
    return [one for line in lines for one in [line] * chance.choice((1, 1, 1, 50))]


LINES = (encoded, cut, noisy, nested, keys, actors, doubled)
CLASSES = [made.__name__ for made in (*RECORDS, *LINES)]


def crafted(name: str, mine: Records, others: Records, chance: Random) -> list[bytes]:
    """The lines of a file of one class; a class of lines is a forged file as often as not."""
    for made in RECORDS:
        if made.__name__ == name:
            told = made(list(mine), others, chance)
            forger = {"unnamed": "ZZ", "two_owners": "Q9"}.get(name, "K7")
            return list(_told(told, [one for one in told if one not in mine], forger))
    records = forged(list(mine), others, chance) if chance.random() < 0.5 else list(mine)
    change = next(one for one in LINES if one.__name__ == name)
    return change(list(_told(records)), chance)


def _told(records: Records, forged: Records | None = None, forger: str = "K7") -> Iterator[bytes]:
    """A line each, as an export tells them; a record that cannot be told is left out."""
    versions = {one.values.get("hash"): one for one in records if one.table == "template_version"}
    for record in records:
        if record.table == "template_version":
            continue
        version = versions.get(record.values.get("hash")) if record.table == "asking" else None
        code = forger if record in (forged or ()) else "K7"
        try:
            told = statements(code, [version, record] if version else [record])
            lines = [json.dumps(one).encode() for one in told]
        except (TypeError, ValueError, KeyError, AssertionError, AttributeError, OverflowError):
            continue
        yield from lines
