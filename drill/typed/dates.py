"""Dates as people write them, taken only when they can mean one day."""

from __future__ import annotations

import re
from datetime import date

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})", re.ASCII)
_NUMBERS = re.compile(r"(\d{1,2})[/. -](\d{1,2})[/. -](\d{4})", re.ASCII)
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\s+([a-z]+)\.?,?\s+(\d{4})", re.ASCII)
_MONTH_FIRST = re.compile(r"([a-z]+)\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})", re.ASCII)
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_WANTED = "Write year-month-day, as 2027-05-18."


def date_of(typed: str) -> date | str:
    """The day meant by 2027-05-18, 18/05/2027, 18.5.2027, 18 May 2027; else what to write."""
    found = sorted(_meant(" ".join(typed.split()).casefold()))
    if not found:
        return f"That is no date. {_WANTED}"
    if len(found) > 1:
        days = " or ".join(f"{day.day} {day:%B}" for day in found)
        forms = " or ".join(day.isoformat() for day in found)
        return f"That could be {days}. Write {forms}."
    if not 2000 <= found[0].year <= 2100:
        return f"That is in the year {found[0].year}. {_WANTED}"
    return found[0]


def _meant(text: str) -> set[date]:
    """Every day the text may mean."""
    if match := _ISO.fullmatch(text):
        year, month, day = map(int, match.groups())
        return _days((year, month, day))
    if match := _NUMBERS.fullmatch(text):
        one, two, year = map(int, match.groups())
        return _days((year, two, one), (year, one, two))
    if match := _DAY_FIRST.fullmatch(text):
        return _days((int(match[3]), _month(match[2]), int(match[1])))
    if match := _MONTH_FIRST.fullmatch(text):
        return _days((int(match[3]), _month(match[1]), int(match[2])))
    return set()


def _month(word: str) -> int:
    """1 to 12; 0 when it is no month, or fewer than three letters of one."""
    if len(word) < 3:
        return 0
    return next((n for n, name in enumerate(_MONTHS, 1) if name.startswith(word)), 0)


def _days(*parts: tuple[int, int, int]) -> set[date]:
    found = set()
    for year, month, day in parts:
        try:
            found.add(date(year, month, day))
        except ValueError:
            continue
    return found
