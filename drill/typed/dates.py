"""Dates as people write them. Of figures the day stands first, where that can be."""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Iterator
from datetime import date, timedelta

_YEAR = r"(?P<year>\d{4}|\d{2})"
_DAY, _MONTH = r"(?P<day>\d{1,2})", r"(?P<month>[a-z]{3,9})\.?"
_TH = r"(?:st|nd|rd|th)?"
_NUMBERS = re.compile(r"(\d{1,4})([/. -])(\d{1,2})(?:\2(\d{1,4}))?", re.ASCII)
_WORDS = tuple(
    re.compile(form, re.ASCII)
    for form in (
        rf"{_DAY}{_TH}[ -]?(?:of )?{_MONTH}(?:,? ?-?{_YEAR})?",
        rf"{_MONTH} ?{_DAY}{_TH}(?:,? {_YEAR})?",
        rf"(?P<year>\d{{4}})[ -]{_MONTH}[ -]{_DAY}",
    )
)
_WEEKDAY = re.compile(r"(mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun|[a-z]+day)\.?,?\s+", re.ASCII)
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_WANTED = "Write it as 18 May 2027."
_FEBRUARY = 2
_SCHOOL_YEAR = 9
"""The month it begins in: a date without a year is in the school year of today."""


def date_of(typed: str, today: date | None = None, ahead: bool = False) -> date | str:
    """The day meant by 18 May 2027, 18 may 27, 18/05/2027, 2027-05-18; else what to write.

    11/6/27 is 11 June: in Britain the day stands first. 05/18/2027 can only mean 18 May.

    Args:
        today: lets a year be left out: the day of this school year is meant. "today", "yesterday"
            and "tomorrow" are days then, too.
        ahead: of dates without a year only one still to come is meant.
    """
    text = " ".join(typed.split()).casefold()
    if today is not None and text in _NEAR:
        return today + timedelta(_NEAR[text])
    weekday, text = _without_weekday(text)
    found = sorted(set(_meant(text, today, ahead)))
    if not found:
        if too_many := _no_such_day(text, today):
            return f"{too_many} {_WANTED}"
        lacks = today is None and set(_meant(text, date(2028, 1, 1), False))
        return f"That has no year. {_WANTED}" if lacks else f"That is no date. {_WANTED}"
    if len(found) > 1:
        days = " or ".join(f"{day.day} {day:%B}" for day in found)
        forms = " or ".join(in_words(day) for day in found)
        return f"That could be {days}. Write {forms}."
    if not 2000 <= found[0].year <= 2100:
        return f"That is in the year {found[0].year}. {_WANTED}"
    if weekday and not _DAYS[found[0].weekday()].startswith(weekday):
        return f"{in_words(found[0])} is a {found[0]:%A}. {_WANTED}"
    return found[0]


_NEAR = {"yesterday": -1, "today": 0, "tomorrow": 1}


def in_words(day: date) -> str:
    """As 18 May 2027."""
    return f"{day.day} {day:%B} {day.year}"


def _without_weekday(text: str) -> tuple[str, str]:
    """The day of the week that a date begins with, or "", and the rest."""
    match = _WEEKDAY.match(text)
    if match is None or not any(day.startswith(match[1]) for day in _DAYS):
        return "", text
    return match[1], text[match.end() :]


def _meant(text: str, today: date | None, ahead: bool) -> Iterator[date]:
    """Every day the text may mean; of day and month in figures only one order."""
    taken: set[int | None] = set()
    for year, month, day in _readings(text):
        if year in taken:
            continue
        days = [] if year is None else list(_day(_in_full(year), month, day))
        if year is None and today is not None:
            days = list(_this_school_year(month, day, today, ahead))
        taken.update([year] if days else [])
        yield from days


def _in_full(year: int) -> int:
    return 2000 + year if year < 100 else year


def _no_such_day(text: str, today: date | None) -> str:
    """How many days the month has, where it is only the day that is not there."""
    for year, month, day in _readings(text):
        if 1 <= month <= len(_MONTHS) and 29 <= day <= 31:
            named = _in_full(year) if year is not None else today.year if today else 2000
            if not 1 <= named <= 9999:
                continue
            days = monthrange(named, month)[1]
            shown = f" {named}" if month == _FEBRUARY else ""
            return f"{_MONTHS[month - 1].title()}{shown} has {days} days." if day > days else ""
    return ""


def _readings(text: str) -> Iterator[tuple[int | None, int, int]]:
    """(year, month, day) in every order that is used, the day first before the month first."""
    if match := _NUMBERS.fullmatch(text):
        one, two = int(match[1]), int(match[3])
        if match[4] is None:
            yield from ((None, two, one), (None, one, two))
        elif len(match[1]) == 4 and len(match[4]) < 3:
            yield one, two, int(match[4])
        elif len(match[1]) < 3 and len(match[4]) in (2, 4):
            last = int(match[4])
            yield from ((last, two, one), (last, one, two))
            if match[2] == "-" and len(match[4]) == 2:
                yield one, two, last
    for form in _WORDS:
        if match := form.fullmatch(text):
            year = match["year"]
            yield int(year) if year else None, _month(match["month"]), int(match["day"])


def _this_school_year(month: int, day: int, today: date, ahead: bool) -> Iterator[date]:
    """The day in the school year of today; the one still to come where only that is meant."""
    first = today.year - (today.month < _SCHOOL_YEAR)
    found = list(_day(first + (month < _SCHOOL_YEAR), month, day))
    if found and ahead and found[0] <= today:
        found = list(_day(found[0].year + 1, month, day))
    yield from found


def _month(word: str) -> int:
    """1 to 12; 0 when it is no month."""
    return next((n for n, name in enumerate(_MONTHS, 1) if name.startswith(word)), 0)


def _day(year: int, month: int, day: int) -> Iterator[date]:
    try:
        yield date(year, month, day)
    except ValueError:
        return
