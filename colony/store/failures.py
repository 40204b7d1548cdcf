"""Turn what a database says into a refusal that a person can act on."""

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from sqlalchemy.exc import DataError, DBAPIError, IntegrityError

from colony import records
from colony.records.rules import rules_of
from colony.refusals.base import Refusal
from colony.refusals.books import (
    BookBusy,
    BookNotReachable,
    BookRefused,
    DiskFull,
    MayNotWrite,
    NotABook,
    NumberTaken,
    UnfitForBook,
)
from colony.store.location import named, without_secrets

_MEANINGS: tuple[tuple[tuple[str, ...], Callable[[str, str], Refusal]], ...] = (
    (("not a database", "malformed"), NotABook),
    (("is locked", "55P03"), lambda location, _why: BookBusy(location)),
    (("is full", "53100"), lambda location, _why: DiskFull(location)),
    (("readonly database", "42501", "25006"), lambda location, _why: MayNotWrite(location)),
)
"""Words of SQLite, or states of PostgreSQL (its manual, appendix A), and what each means."""

STUMBLES = (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError)
"""How a program stops on a value that it may count on not to be in a book."""


_TAKEN, _NUMBER = "23505", '"pk_'
"""State of a value that is there already, and how our rules begin that are of a row's number."""


@contextmanager
def in_words(location: str) -> Iterator[None]:
    """Refuse in one sentence what the database at `location` fails to do."""
    try:
        yield
    except IntegrityError as broken:
        why = _first_line(broken.orig)
        taken = getattr(broken.orig, "sqlstate", None) == _TAKEN and _NUMBER in why
        raise (NumberTaken(why) if taken else BookRefused(_rule_named(why) or why)) from broken
    except (DataError, UnicodeEncodeError, OverflowError) as unfit:
        raise UnfitForBook(_first_line(getattr(unfit, "orig", unfit))) from unfit
    except DBAPIError as failed:
        raise refusal_of(failed.orig, location) from failed


def refusal_of(error: BaseException | None, location: str) -> Refusal:
    """The refusal for an error of a database driver."""
    why = without_secrets(_first_line(error), location)
    state = getattr(error, "sqlstate", None)
    for signs, refusal in _MEANINGS:
        if any(sign in why or sign == state for sign in signs):
            return refusal(named(location), why)
    return BookNotReachable(named(location), why)


def _rule_named(why: str) -> str | None:
    """The sentence of the rule whose CHECK is named, if one of ours is.

    SQLite writes ``CHECK constraint failed: ck_animal_sex_is_known``, PostgreSQL the name
    within quotes.
    """
    named_in = re.search(r"\bck_\w+", why)
    if named_in is None:
        return None
    return next(
        (
            f"{record.__tablename__}: {rule.sentence}"
            for record in (getattr(records, name) for name in records.TABLES)
            for rule in rules_of(record)
            if f"ck_{record.__tablename__}_{rule.name}" == named_in[0]
        ),
        None,
    )


def _first_line(error: BaseException | None) -> str:
    return (str(error).splitlines() or ["no reason given"])[0]
