"""Read what was typed into the values that acts take."""

from datetime import date

from colony.commands.cli.opened import reading
from colony.notation.days import Day, is_by_numbers, parse_day, parse_day_as_known
from colony.refusals.books import NoSuchBook

_named: dict[str, str | None] = {"book": None}


def keep_named(book: str | None) -> str | None:
    """Keep which book this command names: what was typed is read as that house writes."""
    _named["book"] = book
    return book


def today() -> date:
    """The day it is; the commands are the only face that asks this clock."""
    return date.today()  # noqa: DTZ011 - the breeder's own calendar day, in the house's time zone


def day(text: str) -> date:
    """One exact day."""
    return parse_day(text, today(), _order(text))


def known_day(text: str | None) -> Day | None:
    """A day as well as it is known, if one was typed."""
    return None if text is None else parse_day_as_known(text, today(), _order(text))


def day_or_none(text: str | None) -> date | None:
    """One exact day, if one was typed."""
    return None if text is None else day(text)


def _order(text: str) -> str:
    """The order of day and month of the book that is meant; asked only where it matters."""
    if not is_by_numbers(text):
        return "iso"
    from colony.store.settings import read_settings

    try:
        with reading(_named["book"]) as session:
            return read_settings(session).date_order
    except NoSuchBook:
        return "iso"
