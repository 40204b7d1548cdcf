"""Read what was typed into the values that acts take."""

from datetime import date

from colony.notation.days import Day, parse_day, parse_day_as_known


def today() -> date:
    """The day it is; the commands are the only face that asks this clock."""
    return date.today()  # noqa: DTZ011 - the breeder's own calendar day, in the house's time zone


def day(text: str) -> date:
    """One exact day."""
    return parse_day(text, today())


def known_day(text: str | None) -> Day | None:
    """A day as well as it is known, if one was typed."""
    return None if text is None else parse_day_as_known(text, today())


def day_or_none(text: str | None) -> date | None:
    """One exact day, if one was typed."""
    return None if text is None else day(text)
