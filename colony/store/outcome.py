"""Whether an act was written, also where the answer of the database was lost."""

from contextlib import suppress

from sqlalchemy import Engine, select
from sqlalchemy.exc import DBAPIError, IntegrityError
from sqlmodel import Session

from colony.records import JournalEntry
from colony.refusals.history import OutcomeNotKnown
from colony.store.engine import turn
from colony.store.journal.writing import ENTRY
from colony.store.location import named

WRITTEN = "written"
"""Under which name a session knows the number of the act that it has written for good."""


def commit(session: Session, engine: Engine, location: str, act_id: str) -> None:
    """Write an act for good; where the answer is lost, look whether it was written.

    An act that comes after has its turn when this one is over, so what is seen then is certain.

    Raises
    ------
    OutcomeNotKnown
        The database cannot be asked.
    """
    entry = session.info.get(ENTRY)
    try:
        session.commit()
    except IntegrityError:
        raise
    except BaseException as failed:
        with suppress(DBAPIError):
            session.rollback()  # what is still open would be waited for
        number = _number_of(engine, location, act_id) if entry is not None else None
        if number is None:
            raise
        session.info[WRITTEN] = number
        if not isinstance(failed, DBAPIError):
            raise
        return
    if entry is not None:
        session.info[WRITTEN] = entry


def _number_of(engine: Engine, location: str, act_id: str) -> int | None:
    try:
        with turn(engine) as connection:
            query = select(JournalEntry.id).where(JournalEntry.act_id == act_id)  # type: ignore[call-overload] # sqlmodel types it for its own select
            number: int | None = connection.execute(query).scalar()
    except DBAPIError as failed:
        raise OutcomeNotKnown(named(location), act_id) from failed
    return number
