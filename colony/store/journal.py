"""The journal: what an act changed, row by row, written in the act's own transaction."""

import datetime as dt
import getpass
import json
import os
from typing import Any

from sqlalchemy import event, inspect
from sqlmodel import Session, SQLModel

from colony.records import JournalEntry

WHO_VARIABLE = "COLONY_WHO"

Row = dict[str, Any]


class Recorder:
    """Listens to one session and remembers each changed row before and after."""

    def __init__(self, session: Session) -> None:
        self.changes: dict[tuple[str, Any], tuple[Row | None, Row | None]] = {}
        event.listen(session, "after_flush", self._remember)

    def _remember(self, session: Session, _flush_context: object) -> None:
        for record in session.new:
            self._merge(record, None, _whole_row(record))
        for record in session.deleted:
            self._merge(record, _whole_row(record), None)
        for record in session.dirty:
            before, after = _changed_columns(record)
            if after:
                self._merge(record, before, after)

    def _merge(self, record: SQLModel, before: Row | None, after: Row | None) -> None:
        """Fold a second change of the same row into the first."""
        key = (
            str(record.__tablename__),
            inspect(record).mapper.primary_key_from_instance(record)[0],
        )
        if key in self.changes:
            first_before, first_after = self.changes[key]
            if first_before is not None and before is not None:
                before = before | first_before
            elif first_before is None:
                before = None
            if after is not None and first_after is not None:
                after = first_after | after
        self.changes[key] = (before, after)

    def as_json(self) -> str:
        """All changes of the act as one JSON text."""
        rows = [
            {"table": table, "key": key, "before": before, "after": after}
            for (table, key), (before, after) in self.changes.items()
            if before != after
        ]
        return json.dumps(rows, default=str, ensure_ascii=False, separators=(",", ":"))


def tell(session: Session, sentence: str) -> None:
    """Say in the journal, for a person, what the act of this session did."""
    session.info.setdefault("told", []).append(sentence)


def write_entry(session: Session, act: str, recorder: Recorder) -> None:
    """Append the act to the journal, unless it changed nothing."""
    session.flush()
    if not recorder.changes:
        return
    told: list[str] = session.info.get("told", [])
    more = f" (and {len(told) - 3} more)" if len(told) > 3 else ""  # noqa: PLR2004 - a readable line
    entry = JournalEntry(
        at=dt.datetime.now(dt.UTC).isoformat(timespec="seconds"),
        who=os.environ.get(WHO_VARIABLE) or getpass.getuser(),
        act=act,
        summary="; ".join(told[:3]) + more,
        changes=recorder.as_json(),
    )
    session.add(entry)


def _whole_row(record: SQLModel) -> Row:
    state = inspect(record)
    return {column.key: getattr(record, column.key) for column in state.mapper.column_attrs}


def _changed_columns(record: SQLModel) -> tuple[Row, Row]:
    before, after = {}, {}
    for attribute in inspect(record).attrs:
        history = attribute.history
        if history.has_changes():
            before[attribute.key] = history.deleted[0] if history.deleted else None
            after[attribute.key] = history.added[0] if history.added else None
    return before, after
