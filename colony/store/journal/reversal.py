"""Take the steps of an act back, and tell which later acts build on it."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Table, select, text
from sqlalchemy.exc import IntegrityError
from sqlmodel import Session

from colony.refusals.history import RowIsOtherwise
from colony.store.journal.entries import RecordedAct
from colony.store.journal.journal import recorder_of
from colony.store.journal.rows import Place, kept_tables, key_column, references, table_named, typed
from colony.store.journal.steps import Row, RowChange

BEARING = {
    "animal": {"sex", "born", "status", "ended_on", "species_id", "dam_id", "litter_id"},
    "litter": {"born", "dam_id"},
    "pairing": {"started", "ended", "dam_id"},
    "tank": {"role", "retired_on"},
}
"""Facts of a row that a later row which refers to it was judged by."""


def take_back(session: Session, entry: RecordedAct) -> None:
    """Undo the steps of one act, the last first, and record that as steps of this session's act.

    Raises
    ------
    RowIsOtherwise
        A row is not as the act left it.
    JournalOutgrown
        A table or column of it is no more.
    """
    session.flush()
    for step in reversed(entry.steps):
        table = table_named(step.table)
        before, after = (
            None if row is None else typed(table, row) for row in (step.before, step.after)
        )
        _refuse_otherwise(session, entry.number, table, step, after)
        _write(session, table, step.key, before, after)
        recorder_of(session).steps.append(RowChange(step.table, step.key, after, before))
    session.expire_all()


def check_references(session: Session) -> None:
    """Hold what refers to other rows to their being there now, not only when all is committed.

    Raises
    ------
    IntegrityError
        A row refers to one that is gone.
    """
    connection = session.connection()
    if connection.dialect.name == "postgresql":
        connection.execute(text("SET CONSTRAINTS ALL IMMEDIATE"))
        connection.execute(text("SET CONSTRAINTS ALL DEFERRED"))
        return
    for table in kept_tables():
        if not any(key.deferrable for key in table.foreign_keys):
            continue  # the database has looked already
        broken = connection.execute(text(f"PRAGMA foreign_key_check({table.name})")).first()
        if broken is not None:
            raise IntegrityError(None, None, ValueError(f"a row of {broken[2]} is gone"))


def depends(later: RecordedAct, earlier: RecordedAct) -> bool:
    """Whether a later act builds on rows that an earlier one made, changed or deleted."""
    changed = changed_columns(earlier)
    return bool(overlaps(changed, later.steps)) or any(
        _refers(step, changed) for step in later.steps
    )


def changed_columns(entry: RecordedAct) -> dict[Place, set[str] | None]:
    """Each row that an act affected, and its columns; None for all of a row made or deleted."""
    changed: dict[Place, set[str] | None] = {}
    for step in entry.steps:
        place, columns = (step.table, step.key), _columns(step)
        known = changed.get(place, set())
        changed[place] = None if columns is None or known is None else known | columns
    return changed


def _columns(step: RowChange) -> set[str] | None:
    return None if step.before is None or step.after is None else set(step.after)


def overlaps(changed: dict[Place, set[str] | None], steps: Iterable[RowChange]) -> list[RowChange]:
    """The steps that touch what was changed: the same row, and a column of it in common."""
    found = []
    for step in steps:
        if (step.table, step.key) in changed:
            earlier, later = changed[step.table, step.key], _columns(step)
            if earlier is None or later is None or earlier & later:
                found.append(step)
    return found


def _refers(step: RowChange, changed: dict[Place, set[str] | None]) -> bool:
    """A row now refers to one that was made, or to one by a fact that was changed."""
    for _, place in references(table_named(step.table), step.after or {}):
        columns = changed.get(place, set())
        if columns is None or columns & BEARING.get(place[0], set()):
            return True
    return False


def _refuse_otherwise(
    session: Session, number: int, table: Table, step: RowChange, after: Row | None
) -> None:
    query = select(table).where(key_column(table) == step.key)
    found = session.connection().execute(query).mappings().first()
    here = None if found is None else {name: found[name] for name in after or {}}
    if (found is None) != (after is None) or (after is not None and here != after):
        raise RowIsOtherwise(number, f"row {step.key} of {step.table}")


def _write(
    session: Session, table: Table, key: int | str, row: Row | None, was: Row | None
) -> None:
    here = key_column(table) == key
    statement: Any
    if row is None:
        statement = table.delete().where(here)
    elif was is None:
        statement = table.insert().values(row)
    else:
        statement = table.update().where(here).values(row)
    session.connection().execute(statement)
