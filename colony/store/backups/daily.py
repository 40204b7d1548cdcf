"""What is done before an act is written: a check of the clock, and the backup of the day."""

import datetime as dt
from pathlib import Path

from sqlalchemy import Engine
from sqlmodel import Session, col, select

from colony.records import JournalEntry
from colony.refusals.base import Refusal
from colony.store import clock
from colony.store.backups.backups import DAILY, copy_before, has_daily_copy, list_copies, newest_of
from colony.store.backups.manifest import mark_tested
from colony.store.backups.rotation import throw_away
from colony.store.journal.chain import book_id
from colony.store.journal.entries import latest, moment_of
from colony.store.settings import read_settings

CLOCK_MAY_DIFFER = dt.timedelta(minutes=10)
"""Two computers that write in one book; common practice, no source."""

TEST_EVERY = dt.timedelta(days=7)
"""How often a backup is restored as a test; common practice, no source."""

CONCERNS, _TO_TRY = "concerns", "backup to try"


def begin_act(session: Session, engine: Engine, location: str) -> None:
    """Before the first act of a day, copy the book; note in the session what a person should know."""
    now = clock.now()
    concerns: list[str] = session.info.setdefault(CONCERNS, [])
    last = latest(session)
    if last.number and moment_of(last.number, last.at) > now + CLOCK_MAY_DIFFER:
        concerns.append(
            f"The clock says {now:%Y-%m-%d %H:%M} UTC, but the last act is of {last.at}: "
            "one of them is wrong. Set the clock, and look at the days of the last acts."
        )
    book = book_id(session.connection())
    try:
        if _copy_of_the_day(session, engine, location, now.date(), book):
            session.info[_TO_TRY] = _to_try(location, book, now)
    except Refusal as refusal:
        concerns.append(f"No backup was made today. {refusal.sentence}")


def concerns_of(session: Session) -> list[str]:
    """What a person should know about the book beside the act itself."""
    concerns: list[str] = session.info.get(CONCERNS, [])
    return concerns


def backup_to_try(session: Session) -> Path | None:
    """The backup that is to be restored as a test after this act: once a week, the newest."""
    found: Path | None = session.info.get(_TO_TRY)
    return found


def try_backup(copy: Path) -> str | None:
    """Restore a backup as a test, and keep when; what is wrong with it, in words, or None.

    It takes as long as a restore, so it is done when an act is answered and others may write.
    """
    from colony.store.backups.trial import try_restore  # noqa: PLC0415 - once a week

    try:
        try_restore(copy)
        mark_tested(copy, clock.now().isoformat(timespec="seconds"))
    except (Refusal, OSError) as wrong:
        said = wrong.sentence if isinstance(wrong, Refusal) else str(wrong)
        return f"The newest backup could not be restored as a test. {said}"
    return None


def _to_try(location: str, book: str, now: dt.datetime) -> Path | None:
    copies = list_copies(location, book)
    tested = max((copy.tested for copy in copies if copy.tested), default=None)
    if tested is not None and dt.datetime.fromisoformat(tested) > now - TEST_EVERY:
        return None
    newest = newest_of([copy for copy in copies if copy.reason == DAILY])
    return None if newest is None else newest.path


def _copy_of_the_day(
    session: Session, engine: Engine, location: str, today: dt.date, book: str
) -> bool:
    """Copy a book that is older than today and has no copy of today; whether one was made."""
    first = session.exec(select(JournalEntry.at).order_by(col(JournalEntry.id)).limit(1)).first()
    if first is None or moment_of(1, first).date() >= today:
        return False
    if has_daily_copy(location, book, today):
        return False
    copy_before(engine, location, DAILY)
    throw_away(location, read_settings(session), book)
    return True
