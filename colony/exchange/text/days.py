"""Dates as spreadsheets write them: ISO, day or month first, a month or a year alone."""

import re
from datetime import date

from colony.notation.days import DATE_ORDERS, Day, as_iso, is_by_numbers, parse_day_as_known
from colony.refusals.cells import DayInTheFuture, DayNotInOrder, DayReadsTwoWays, NotADayInASheet
from colony.refusals.notation import DayOutOfRange, UnreadableDay

_MIDNIGHT = re.compile(r"[ t]0{1,2}:00(:00(\.0+)?)?(z|\+00:00)?$")
_YEAR_FIRST = re.compile(r"(\d{4})[/.](\d{1,2})(?:[/.](\d{1,2}))?", re.ASCII)
_MONTH_YEAR = re.compile(r"(\d{1,2})[/.\-](\d{4})", re.ASCII)
_BY_NAME = re.compile(r"(?:(\d{1,2})[\s.-]*)?([a-z]{3,9})[\s.,-]*(\d{4})", re.ASCII)
_ISO_CHARACTERS = re.compile(r"[\d-]+", re.ASCII)
"""No "today" or "3d ago": a file must say the same when it is imported again."""
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_FULL_MONTHS = (
    *("january", "february", "march", "april", "may", "june", "july", "august"),
    *("september", "october", "november", "december"),
)


def read_sheet_day(text: str, order: str, today: date) -> Day:
    """Read a date of a sheet, as well as it is known.

    Parameters
    ----------
    order
        What numbers parted by strokes mean: ``iso``, ``dmy`` or ``mdy``. ISO 8601, a month
        (``2024-05``, ``5/2024``, ``May 2024``) and a year are taken with each.

    Raises
    ------
    DayReadsTwoWays
        The order of day and month was not said, and matters.
    DayNotInOrder, NotADayInASheet, DayOutOfRange, DayInTheFuture
        There is no such day, or it has not come yet.
    """
    plain = _MIDNIGHT.sub("", text.strip().lower())
    iso = _by_numbers(plain, text, order, today) if is_by_numbers(plain) else _rewritten(plain)
    day = _as_iso(iso, text, order, today)
    if day.first > today:
        raise DayInTheFuture(text)
    return day


def _by_numbers(plain: str, text: str, order: str, today: date) -> str:
    if order == "iso":
        raise DayReadsTwoWays(text)
    try:
        return as_iso(plain, order, today)
    except ValueError as wrong:
        raise DayNotInOrder(text, DATE_ORDERS[order]) from wrong


def _rewritten(plain: str) -> str:
    """Rewrite what can be read one way only as ISO 8601."""
    if matched := _YEAR_FIRST.fullmatch(plain):
        return "-".join(part for part in matched.groups() if part)
    if matched := _MONTH_YEAR.fullmatch(plain):
        return f"{matched[2]}-{matched[1]}"
    if (matched := _BY_NAME.fullmatch(plain)) and (month := _month(matched[2])):
        return "-".join(part for part in (matched[3], str(month), matched[1]) if part)
    return plain


def _month(word: str) -> int | None:
    names = _FULL_MONTHS if word in _FULL_MONTHS else _MONTHS
    return names.index(word) + 1 if word in names else None


def _as_iso(plain: str, text: str, order: str, today: date) -> Day:
    if not _ISO_CHARACTERS.fullmatch(plain):
        raise NotADayInASheet(text, DATE_ORDERS[order])
    try:
        return parse_day_as_known(plain, today)
    except UnreadableDay as wrong:
        raise NotADayInASheet(text, DATE_ORDERS[order]) from wrong
    except DayOutOfRange as wrong:
        raise DayOutOfRange(text) from wrong
