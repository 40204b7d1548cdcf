"""Take acts back and judge what that makes of the book, as the acts since were judged."""

from collections.abc import Iterable, Sequence
from itertools import islice

from sqlalchemy.exc import IntegrityError
from sqlmodel import Session

from colony.acts.book.checks.after_undo import checks_of, wrong_findings
from colony.acts.book.checks.finding import Check, Finding
from colony.refusals.base import Refusal
from colony.refusals.history import ComesBackAgainst
from colony.store import clock
from colony.store.journal.entries import RecordedAct
from colony.store.journal.reversal import check_references, take_back
from colony.store.journal.rows import Place, references, table_named
from colony.store.journal.steps import RowChange

MOST_TRIED = 12
"""Later acts that are tried one by one, to tell which of them stands against an undo."""

_CANNOT_MEET = "a row that comes back cannot stand beside one that was written since"


def take_back_judged(
    session: Session, entries: Sequence[RecordedAct], later: Sequence[RecordedAct]
) -> None:
    """Take acts back, the newest first, unless `later` acts forbid what comes of it.

    Raises
    ------
    ComesBackAgainst
        What comes back breaks a rule that held before; it names the later act.
    RowIsOtherwise, JournalOutgrown
    """
    problem = _attempt(session, entries)
    if problem is None:
        return
    blamed = _against(session, entries, later)
    raise ComesBackAgainst(
        [(entry.number, entry.summary) for entry in entries],
        problem,
        None if blamed is None else (blamed.number, blamed.summary),
    )


def _attempt(session: Session, entries: Sequence[RecordedAct]) -> str | None:
    """Take acts back; where a rule forbids it, say which, and leave the book as it was."""
    checks = checks_of(step for entry in entries for step in entry.steps)
    savepoint = session.begin_nested()
    try:
        _take_back_all(session, entries)
        found = _wrong(session, checks)
    except IntegrityError:
        savepoint.rollback()
        return _CANNOT_MEET
    if not found:
        savepoint.commit()
        return None
    savepoint.rollback()
    return _accepted_if_known(session, entries, checks, found)


def _accepted_if_known(
    session: Session,
    entries: Sequence[RecordedAct],
    checks: Sequence[Check],
    found: Sequence[Finding],
) -> str | None:
    """What was wrong before the undo already is no reason against it."""
    before = _wrong(session, checks)
    new = next((finding for finding in found if finding not in before), None)
    if new is not None:
        return f"{new.where}: {new.problem}"
    _take_back_all(session, entries)
    return None


def _wrong(session: Session, checks: Iterable[Check]) -> list[Finding]:
    session.expire_all()
    return wrong_findings(session, checks, clock.now().astimezone().date())


def _take_back_all(session: Session, entries: Sequence[RecordedAct]) -> None:
    for entry in entries:
        take_back(session, entry)
    check_references(session)


def _against(
    session: Session, entries: Sequence[RecordedAct], later: Sequence[RecordedAct]
) -> RecordedAct | None:
    """The later act without which the acts could be taken back, the likeliest tried first."""
    near = _places(entries)
    likeliest = sorted(later, key=lambda entry: (not near & _places([entry]), -entry.number))
    return next(
        (entry for entry in islice(likeliest, MOST_TRIED) if _solves(session, entry, entries)), None
    )


def _solves(session: Session, later: RecordedAct, entries: Sequence[RecordedAct]) -> bool:
    """Whether acts could be taken back if a later one were; it leaves the book as it was."""
    together = sorted([later, *entries], key=lambda entry: -entry.number)
    savepoint = session.begin_nested()
    try:
        return _attempt(session, together) is None
    except Refusal:
        return False
    finally:
        savepoint.rollback()


def _places(entries: Iterable[RecordedAct]) -> set[Place]:
    """The rows that acts wrote, and those that these refer to."""
    return {place for entry in entries for step in entry.steps for place in _near(step)}


def _near(step: RowChange) -> Iterable[Place]:
    yield (step.table, step.key)
    for row in (step.before, step.after):
        for _, place in references(table_named(step.table), row or {}):
            yield place
