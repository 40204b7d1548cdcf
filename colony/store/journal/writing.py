"""Append an act to the journal: the entry itself, what it affected, and the head of the chain."""

from sqlmodel import Session, select

from colony.records import JournalEntry
from colony.refusals.history import DoneAlready
from colony.store import clock
from colony.store.journal.affected import write_places
from colony.store.journal.chain import head_of, move_head
from colony.store.journal.journal import Recorder, summary_of
from colony.store.journal.writers import acting_person, database_user

ENTRY = "entry"
"""Under which name a session knows the number of the entry that it has added."""

BEGIN_ACT, SCHEMA_ACT = "book begin", "book schema"
"""What the program itself writes: the first species, and what a new schema made of the rows."""


def write_entry(session: Session, act: str, recorder: Recorder, *, always: bool = False) -> None:
    """Append the act to the journal, unless it changed nothing."""
    session.flush()
    if not recorder.steps and not always:
        return
    entry = JournalEntry(
        at=clock.now().isoformat(timespec="seconds"),
        who=acting_person(),
        act=act,
        summary=summary_of(session.info.get("sentences", [])),
        changes=recorder.as_json(),
        act_id=recorder.act_id,
        db_user=database_user(session.connection()),
        previous=head_of(session),
    )
    session.add(entry)
    session.flush()
    session.info[ENTRY] = entry.id
    write_places(session, entry.id or 0, recorder.steps, recorder.undoes)
    move_head(session, entry)


def refuse_done(session: Session, act_id: str) -> None:
    """Refuse an act whose id is in the journal: it was sent again.

    Raises
    ------
    DoneAlready
    """
    entry = session.exec(select(JournalEntry).where(JournalEntry.act_id == act_id)).first()
    if entry is not None:
        raise DoneAlready(entry.id or 0, entry.at, entry.summary)
