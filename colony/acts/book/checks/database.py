"""The file itself, and whether the rows are those that the acts of the journal made."""

from collections.abc import Iterator
from datetime import date
from itertools import compress, pairwise
from typing import Any

from sqlalchemy import Boolean, literal_column, or_, text
from sqlalchemy import select as sql_select
from sqlmodel import Session, select

from colony import records
from colony.acts.book.checks.finding import Finding
from colony.records import TABLES, Setting
from colony.records.rules import rules_of
from colony.refusals.history import JournalDamaged
from colony.store import clock
from colony.store.backups.daily import CLOCK_MAY_DIFFER
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import Difference, differences, kept_rows, told_rows
from colony.store.settings import unreadable_settings

MOST = 20
"""Rows that are named one by one."""


def sound_file(session: Session, _today: date) -> Iterator[Finding]:
    """Pages, indexes, constraints and references of a SQLite file; PostgreSQL holds its own."""
    if session.get_bind().dialect.name != "sqlite":
        return
    mend = "colony book restore newest"
    for (said,) in session.connection().execute(text("PRAGMA integrity_check")):
        if said != "ok":
            yield Finding("database", True, "the file", str(said), mend)
    for table, row, target, _ in session.connection().execute(text("PRAGMA foreign_key_check")):
        problem = f"refers to a row of {target} that is not there"
        yield Finding("database", True, f"{table} {row}", problem, mend)


def rows_keep_their_rules(session: Session, _today: date) -> Iterator[Finding]:
    """Rows that break a rule of their table, written where the database did not look."""
    for names in TABLES.values():
        for name in names:
            yield from _broken_rules(session, getattr(records, name))


def _broken_rules(session: Session, record: Any) -> Iterator[Finding]:  # noqa: ANN401 - any table
    dialect = session.get_bind().dialect.name
    rules = [rule for rule in rules_of(record) if rule.dialect in (None, dialect)]
    if not rules:
        return
    table = record.__table__
    broken = [literal_column(f"NOT ({rule.sql})", Boolean) for rule in rules]
    query = sql_select(table.c.id, *broken).where(or_(*broken)).order_by(table.c.id)
    for key, *breaks in session.connection().execute(query):
        for rule in compress(rules, breaks):
            problem = f"breaks a rule: {rule.sentence}"
            yield Finding("rule", True, f"{table.name} {key}", problem, "colony book rebuild PATH")


def told_by_journal(session: Session, _today: date) -> Iterator[Finding]:
    """Rows that were changed, made or lost behind the journal."""
    try:
        told = told_rows(read_entries(session))
    except JournalDamaged as refusal:
        restore = "colony book restore newest"
        yield Finding("journal", True, "the journal", refusal.sentence, restore)
        return
    found = differences(told, kept_rows(session.connection()))
    mend = "colony book rebuild PATH"
    for one in found[:MOST]:
        table, key = one.place
        yield Finding("journal", True, f"{table} {key}", _told(one), mend)
    if len(found) > MOST:
        problem = f"{len(found) - MOST} more rows are not as the journal tells"
        yield Finding("journal", True, "the book", problem, mend)


def clock_of_journal(session: Session, _today: date) -> Iterator[Finding]:
    """Acts that seem to be of a time to come, or older than the act before them."""
    mend = "set the clock of the computer; acts keep their order"
    moments = [(entry.number, entry.at) for entry in read_entries(session)]
    back = [after for before, after in pairwise(moments) if after[1] < before[1]]
    for number, at in back[-3:]:
        problem = f"is of {at:%Y-%m-%d}, before the act before it"
        yield Finding("clock", False, f"act {number}", problem, mend)
    if moments and moments[-1][1] > clock.now() + CLOCK_MAY_DIFFER:
        number, at = moments[-1]
        problem = f"is of {at:%Y-%m-%d %H:%M} UTC, which is still to come"
        yield Finding("clock", False, f"act {number}", problem, mend)


def readable_settings(session: Session, _today: date) -> Iterator[Finding]:
    """Settings that the program cannot read, so that nothing works that asks for them."""
    written = {row.key: row.value for row in session.exec(select(Setting))}
    for key, takes in unreadable_settings(session).items():
        problem = f"cannot be {written[key]!r}: it takes {takes}"
        yield Finding("settings", True, key, problem, f"colony book settings {key} VALUE")


def _told(one: Difference) -> str:
    if one.kept is None:
        return "was made by an act and is gone, but no act took it away"
    if one.told is None:
        return "is there, but no act made it"
    before, after = one.step.before or {}, one.step.after or {}
    changed = ", ".join(f"{name} {before.get(name)} -> {value}" for name, value in after.items())
    return f"was changed, but not by an act: {changed}"
