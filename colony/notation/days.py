"""How a breeder writes a day or a span of days: ``today``, ``3d ago``, ``2024-05``, ``8w``."""

import calendar
import re
from dataclasses import dataclass
from datetime import date, timedelta

from colony.refusals.notation import DayOrderNotSaid, DayOutOfRange, UnreadableDay, UnreadableSpan

DAYS_IN = {"d": 1, "w": 7, "m": 30, "y": 365}
"""Days in a written span; a month and a year are round numbers here (common practice, no source)."""

DATE_ORDERS = {"iso": "year-month-day", "dmy": "day/month/year", "mdy": "month/day/year"}
"""What numbers parted by strokes mean, in a house or in a sheet."""

_BY_NUMBERS = re.compile(r"(\d{1,2})[/.\- ](\d{1,2})[/.\- ](\d{4}|\d{2})\.?", re.ASCII)
_NAMED = {"today": 0, "yesterday": -1, "tomorrow": 1}
_SPAN = re.compile(r"(\d{1,5})\s*([dwmy])", re.ASCII)
_AGO = re.compile(r"(\d{1,5})\s*([dwmy])\s*ago", re.ASCII)
_AHEAD = re.compile(r"in\s*(\d{1,5})\s*([dwmy])", re.ASCII)
_ISO = re.compile(r"(\d{4})(?:-(\d{1,2})(?:-(\d{1,2}))?)?", re.ASCII)
_EARLIEST, _LATEST = date(1900, 1, 1), date(2199, 12, 31)


@dataclass(frozen=True)
class Day:
    """A date as well as it is known: its first possible day, and whether day, month or year is sure."""

    first: date
    precision: str = "day"

    @property
    def last(self) -> date:
        """The last day it can have been."""
        if self.precision == "month":
            return self.first.replace(day=calendar.monthrange(self.first.year, self.first.month)[1])
        if self.precision == "year":
            return self.first.replace(month=12, day=31)
        return self.first

    def __str__(self) -> str:
        return self.first.isoformat()[: {"day": 10, "month": 7, "year": 4}[self.precision]]


def parse_day(text: str, today: date, order: str = "iso") -> date:
    """Read one exact day: ISO 8601, ``today``, ``yesterday``, ``3d ago`` or ``in 2w``.

    Parameters
    ----------
    order
        One of `DATE_ORDERS`: by ``dmy`` or ``mdy`` a house also writes ``3/2/2026``.

    Raises
    ------
    UnreadableDay
        It is none of these, or only a month or a year.
    DayOrderNotSaid
        ``3/2/2026`` where the house has not said which is the day.
    DayOutOfRange
        It lies before 1900 or after 2199.
    """
    day = parse_day_as_known(text, today, order)
    if day.precision != "day":
        raise UnreadableDay(text, exact=True)
    return day.first


def parse_day_as_known(text: str, today: date, order: str = "iso") -> Day:
    """Read a day, a month (``2024-05``) or a year (``2024``); refuses as `parse_day` does."""
    plain = text.strip().lower()
    if is_by_numbers(plain) and order == "iso":
        raise DayOrderNotSaid(text)
    try:
        plain = as_iso(plain, order, today) if is_by_numbers(plain) else plain
        day = _spoken_day(plain, today) or _iso_day(plain)
    except (ValueError, OverflowError):
        day = None
    if day is None:
        raise UnreadableDay(text)
    if not _EARLIEST <= day.first <= _LATEST:
        raise DayOutOfRange(text)
    return day


def is_by_numbers(text: str) -> bool:
    """Whether it is a day whose order of day and month has to be known: ``3/2/2026``."""
    return _BY_NUMBERS.fullmatch(text.strip()) is not None


def as_iso(text: str, order: str, today: date) -> str:
    """Rewrite a day by numbers as ISO 8601; `order` is ``dmy`` or ``mdy``.

    Two digits of a year mean the latest such year that has come.

    Raises
    ------
    ValueError
        There is no such day in that order.
    """
    matched = _BY_NUMBERS.fullmatch(text.strip())
    if matched is None:
        raise ValueError(text)
    first, second, year = (int(part) for part in matched.groups())
    day, month = (first, second) if order == "dmy" else (second, first)
    if len(matched[3]) == 2:  # noqa: PLR2004 - the century is left out
        year += 2000 if 2000 + year <= today.year else 1900
    return date(year, month, day).isoformat()


def parse_span_days(text: str) -> int:
    """Read a span such as ``8w``, ``60d``, ``6m`` or a bare number of days.

    Raises
    ------
    UnreadableSpan
        It is no number with d, w, m or y.
    """
    plain = text.strip().lower()
    matched = _SPAN.fullmatch(plain if plain[-1:].isalpha() else f"{plain}d")
    if matched is None:
        raise UnreadableSpan(text)
    return _span_days(matched)


def show_span(days: int) -> str:
    """Write a span as a breeder says it: days at first, then weeks, months and years."""
    for unit, at_least in (("y", 730), ("m", 180), ("w", 28)):
        if days >= at_least:
            return f"{days // DAYS_IN[unit]}{unit}"
    return f"{days}d"


def _span_days(matched: re.Match[str]) -> int:
    return int(matched[1]) * DAYS_IN[matched[2]]


def _spoken_day(plain: str, today: date) -> Day | None:
    if plain in _NAMED:
        return Day(today + timedelta(days=_NAMED[plain]))
    if matched := _AGO.fullmatch(plain):
        return Day(today - timedelta(days=_span_days(matched)))
    if matched := _AHEAD.fullmatch(plain):
        return Day(today + timedelta(days=_span_days(matched)))
    return None


def _iso_day(plain: str) -> Day | None:
    matched = _ISO.fullmatch(plain)
    if matched is None:
        return None
    year, month, day = matched.groups()
    precision = "day" if day else "month" if month else "year"
    return Day(date(int(year), int(month or 1), int(day or 1)), precision)
