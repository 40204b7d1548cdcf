"""Write days the way they are said in the house."""

from datetime import date


def short_day(day: date | None, *, year_of: date | None = None) -> str:
    """``3 Dec 2026``; without the year where it is that of `year_of`; a dash where unknown."""
    if day is None:
        return "-"
    if year_of is not None and day.year == year_of.year:
        return f"{day.day} {day:%b}"
    return f"{day.day} {day:%b %Y}"


def in_window(earliest: date, latest: date, today: date) -> str:
    """``now to 17 Dec``: any day from the earliest to the latest."""
    begins = "now" if earliest <= today else short_day(earliest, year_of=latest)
    return f"{begins} to {latest.day} {latest:%b}"


def in_days(day: date, today: date) -> str:
    """``today``, ``in 8 d`` or ``3 d ago``, with the day."""
    days = (day - today).days
    words = "today" if days == 0 else f"in {days} d" if days > 0 else f"{-days} d ago"
    return f"{words}, {day.day} {day:%b}"
