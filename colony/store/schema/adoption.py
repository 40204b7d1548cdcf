"""Let the journal tell what a new schema made of the rows, so that a rebuilt book has it too."""

from sqlmodel import Session

from colony.store.journal.affected import fill_places
from colony.store.journal.entries import read_entries
from colony.store.journal.journal import Recorder, tell
from colony.store.journal.replay import differences, kept_rows, recorded_rows
from colony.store.journal.writing import SCHEMA_ACT, write_entry


def write_adoption(session: Session, before: str, now: str) -> None:
    """Write as one act each row that is not as the acts before the new schema left it."""
    fill_places(session)
    recorder = Recorder(session)
    recorded = recorded_rows(read_entries(session))
    recorder.steps += [
        difference.step for difference in differences(recorded, kept_rows(session.connection()))
    ]
    tell(session, f"schema {before} became {now}")
    write_entry(session, SCHEMA_ACT, recorder, always=True)
