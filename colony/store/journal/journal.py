"""The journal: what an act changed, row by row, written in the act's own transaction.

The steps of an act stand in the order in which the database took them, so that going back
through them passes only through states that the database has accepted before.
"""

import json
from uuid import uuid4

from sqlalchemy import Connection, event, inspect, select
from sqlalchemy.orm import Mapper, ORMExecuteState, SessionTransaction, object_session
from sqlmodel import Session, SQLModel

from colony.records import JournalEntry, Person, every_table
from colony.store.journal.steps import Row, RowChange

MOST_SENTENCES, LONGEST_SUMMARY = 3, 300


class UnrecordedWrite(RuntimeError):
    """A statement would change rows behind the journal: change records in the session instead."""


class Recorder:
    """Follows one session and remembers each row that it changes, step by step."""

    def __init__(self, session: Session, act_id: str | None = None) -> None:
        self.act_id = act_id or uuid4().hex
        every_table()  # what is written may refer to any of them
        self.steps: list[RowChange] = []
        self.undoes: list[int] = []
        self._under_way: dict[int, RowChange] = {}
        self._marks: dict[SessionTransaction, tuple[int, int]] = {}
        self._sentences: list[str] = session.info.setdefault("sentences", [])
        session.info["recorder"] = self
        event.listen(session, "do_orm_execute", _refuse_unrecorded)
        event.listen(session, "after_transaction_create", self._mark)
        event.listen(session, "after_soft_rollback", self._forget)

    def begin(self, record: SQLModel, step: RowChange) -> None:
        """A row is about to be changed or deleted."""
        self._under_way[id(record)] = step

    def done(self, record: SQLModel) -> None:
        """The row that was begun with is changed."""
        step = self._under_way.pop(id(record))
        if step.before or step.after:
            self.steps.append(step)

    def _mark(self, _session: Session, transaction: SessionTransaction) -> None:
        if transaction.nested:
            self._marks[transaction] = (len(self.steps), len(self._sentences))

    def _forget(self, _session: Session, transaction: SessionTransaction) -> None:
        if transaction in self._marks:
            steps, sentences = self._marks.pop(transaction)
            del self.steps[steps:], self._sentences[sentences:]

    def as_json(self) -> str:
        """All steps of the act as one JSON text; those of an undo say first what it undoes."""
        changes: list[Row] = [{"undoes": self.undoes}] if self.undoes else []
        changes += [vars(step) for step in self.steps]
        return json.dumps(changes, default=str, ensure_ascii=False, separators=(",", ":"))


def recorder_of(session: Session) -> Recorder:
    """The recorder of the act that a session is for."""
    recorder: Recorder = session.info["recorder"]
    return recorder


def tell(session: Session, sentence: str, *, beside: bool = False) -> None:
    """Say in the journal, for a person, what the act of this session did.

    What stands `beside` it is said after all else.
    """
    session.info.setdefault("sentences", []).append(_Beside(sentence) if beside else sentence)


class _Beside(str):
    """A sentence that is said after all else."""

    __slots__ = ()


def summary_of(told: list[str]) -> str:
    """What was told of an act, as one line of the journal."""
    sentences = sorted(told, key=lambda sentence: isinstance(sentence, _Beside))
    more = (
        f" (and {len(sentences) - MOST_SENTENCES} more)" if len(sentences) > MOST_SENTENCES else ""
    )
    text = "; ".join(sentences[:MOST_SENTENCES])
    return (text if len(text) <= LONGEST_SUMMARY else f"{text[:LONGEST_SUMMARY]}...") + more


def _refuse_unrecorded(state: ORMExecuteState) -> None:
    if state.is_insert or state.is_update or state.is_delete:
        raise UnrecordedWrite(str(state.statement))


def _recorder(record: SQLModel) -> Recorder | None:
    session = object_session(record)
    return (
        None
        if session is None or isinstance(record, (JournalEntry, Person))
        else session.info.get("recorder")
    )


def _key(record: SQLModel) -> int | str:
    key: int | str = inspect(record).mapper.primary_key_from_instance(record)[0]
    return key


def _stored(connection: Connection, record: SQLModel) -> Row:
    """The row as the database has it now."""
    table = inspect(record).mapper.local_table
    key = next(iter(table.primary_key))
    row = connection.execute(select(table).where(key == _key(record))).mappings().one()
    return dict(row)


@event.listens_for(Mapper, "after_insert")
def _inserted(_mapper: object, _connection: Connection, record: SQLModel) -> None:
    if recorder := _recorder(record):
        attributes = inspect(record).mapper.column_attrs
        row = {attribute.key: getattr(record, attribute.key) for attribute in attributes}
        recorder.steps.append(RowChange(str(record.__tablename__), _key(record), None, row))


@event.listens_for(Mapper, "before_update")
def _updating(_mapper: object, connection: Connection, record: SQLModel) -> None:
    if recorder := _recorder(record):
        before, after = _changed_columns(connection, record)
        recorder.begin(record, RowChange(str(record.__tablename__), _key(record), before, after))


@event.listens_for(Mapper, "before_delete")
def _deleting(_mapper: object, connection: Connection, record: SQLModel) -> None:
    if recorder := _recorder(record):
        before = _stored(connection, record)
        recorder.begin(record, RowChange(str(record.__tablename__), _key(record), before, None))


@event.listens_for(Mapper, "after_update")
@event.listens_for(Mapper, "after_delete")
def _changed(_mapper: object, _connection: Connection, record: SQLModel) -> None:
    if recorder := _recorder(record):
        recorder.done(record)


def _changed_columns(connection: Connection, record: SQLModel) -> tuple[Row, Row]:
    before, after = {}, {}
    histories = {attribute.key: attribute.history for attribute in inspect(record).attrs}
    for name, history in histories.items():
        if history.has_changes():
            # A value that was never loaded has no history: the database still has it.
            known = history.deleted or [_stored(connection, record)[name]]
            if known[0] != history.added[0]:
                before[name], after[name] = known[0], history.added[0]
    return before, after
