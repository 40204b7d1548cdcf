"""The file itself, and whether the rows are those that the acts of the journal made."""

from collections.abc import Iterator
from datetime import date
from itertools import islice, pairwise

from sqlalchemy import text
from sqlmodel import Session, select

from colony.acts.book.checks.finding import Finding
from colony.records import Setting
from colony.refusals.base import act
from colony.refusals.history import JournalDamaged
from colony.store import clock
from colony.store.backups.counters import counters_behind
from colony.store.backups.daily import CLOCK_MAY_DIFFER
from colony.store.damage import broken_rules
from colony.store.journal.chain import journal_is_whole
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import Difference, differences, kept_rows, recorded_rows
from colony.store.settings import unreadable_settings

RESTORE, REBUILD = (act("book restore", "newest"),), (act("book rebuild"),)

CLOCK = "set the clock of the computer; acts keep their order"

MOST = 20
"""Rows that are named one by one."""


def sound_file(session: Session, _today: date) -> Iterator[Finding]:
    """Pages, indexes, constraints and references of a SQLite file; PostgreSQL holds its own."""
    if session.get_bind().dialect.name != "sqlite":
        return
    for (answer,) in session.connection().execute(text("PRAGMA integrity_check")):
        if answer != "ok":
            yield Finding("database", True, "the file", str(answer), RESTORE)
    for table, row, target, _ in session.connection().execute(text("PRAGMA foreign_key_check")):
        problem = f"refers to a row of {target} that is not there"
        yield Finding("database", True, f"{table} {row}", problem, RESTORE)


def counters_go_on(session: Session, _today: date) -> Iterator[Finding]:
    """Counters of PostgreSQL that would give a new row the number of one that is there."""
    for counter in counters_behind(session.connection()):
        problem = f"counts on from {counter.last}, but has rows up to {counter.newest}: acts will be refused"
        yield Finding("counters", True, counter.table, problem, (act("book recount"),))


def rows_keep_their_rules(session: Session, _today: date) -> Iterator[Finding]:
    """Rows that break a rule of their table, written where the database did not look."""
    for broken in islice(broken_rules(session.connection()), MOST):
        problem = f"breaks a rule: {broken.rule}"
        yield Finding("rule", True, f"{broken.table} {broken.key}", problem, REBUILD)


def journal_is_a_chain(session: Session, _today: date) -> Iterator[Finding]:
    """An act of the journal that was changed, taken out or put in past the program."""
    number = journal_is_whole(session.connection())
    if number is not None:
        problem = "does not fit the act before it: the journal was changed past the program"
        yield Finding("journal", True, f"act {number}", problem, RESTORE)


def as_the_journal_has_it(session: Session, _today: date) -> Iterator[Finding]:
    """Rows that were changed, made or lost behind the journal."""
    try:
        recorded = recorded_rows(read_entries(session))
    except JournalDamaged as refusal:
        yield Finding("journal", True, "the journal", refusal.sentence, RESTORE)
        return
    found = differences(recorded, kept_rows(session.connection()))
    for difference in found[:MOST]:
        table, key = difference.place
        yield Finding("journal", True, f"{table} {key}", _in_words(difference), REBUILD)
    if len(found) > MOST:
        problem = f"{len(found) - MOST} more rows are not as the journal tells"
        yield Finding("journal", True, "the book", problem, REBUILD)


def clock_of_journal(session: Session, _today: date) -> Iterator[Finding]:
    """Acts that seem to be of a time to come, or older than the act before them."""
    try:
        moments = [(entry.number, entry.at) for entry in read_entries(session)]
    except JournalDamaged:
        return  # as_the_journal_has_it says it
    back = [after for before, after in pairwise(moments) if after[1] < before[1]]
    for number, at in back[-3:]:
        problem = f"is of {at:%Y-%m-%d}, before the act before it"
        yield Finding("clock", False, f"act {number}", problem, advice=CLOCK)
    if moments and moments[-1][1] > clock.now() + CLOCK_MAY_DIFFER:
        number, at = moments[-1]
        problem = f"is of {at:%Y-%m-%d %H:%M} UTC, which is still to come"
        yield Finding("clock", False, f"act {number}", problem, advice=CLOCK)


def readable_settings(session: Session, _today: date) -> Iterator[Finding]:
    """Settings that the program cannot read, so that nothing works that asks for them."""
    written = {row.key: row.value for row in session.exec(select(Setting))}
    for key, takes in unreadable_settings(session).items():
        problem = f"cannot be {written[key]!r}: it takes {takes}"
        yield Finding("settings", True, key, problem, (act("book settings", key),))


def _in_words(difference: Difference) -> str:
    if difference.kept is None:
        return "was made by an act and is gone, but no act took it away"
    if difference.recorded is None:
        return "is there, but no act made it"
    before, after = difference.step.before or {}, difference.step.after or {}
    changed = ", ".join(f"{name} {before.get(name)} -> {value}" for name, value in after.items())
    return f"was changed, but not by an act: {changed}"
