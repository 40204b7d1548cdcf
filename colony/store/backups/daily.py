"""What is done before an act is written: a check of the clock, and the backup of the day."""

import datetime as dt

from sqlalchemy import Engine
from sqlmodel import Session, col, select

from colony.records import JournalEntry
from colony.refusals.base import Refusal
from colony.store import clock
from colony.store.backups.backups import DAILY, copy_before, list_copies
from colony.store.backups.rotation import throw_away
from colony.store.journal.entries import latest, moment_of
from colony.store.settings import read_settings

CLOCK_MAY_DIFFER = dt.timedelta(minutes=10)
"""Two computers that write in one book; common practice, no source."""

CONCERNS = "concerns"


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
    try:
        _copy_of_the_day(session, engine, location, now.date())
    except Refusal as refusal:
        concerns.append(f"No backup was made today. {refusal.sentence}")


def concerns_of(session: Session) -> list[str]:
    """What a person should know about the book beside the act itself."""
    concerns: list[str] = session.info.get(CONCERNS, [])
    return concerns


def _copy_of_the_day(session: Session, engine: Engine, location: str, today: dt.date) -> None:
    """Copy a book that is older than today and has no copy of today."""
    first = session.exec(select(JournalEntry.at).order_by(col(JournalEntry.id)).limit(1)).first()
    if first is None or moment_of(1, first).date() >= today:
        return
    if any(copy.reason == DAILY and copy.made.date() == today for copy in list_copies(location)):
        return
    copy_before(engine, location, DAILY)
    throw_away(location, read_settings(session))
