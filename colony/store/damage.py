"""Rows that are not as their tables allow: somebody changed them past the program."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import compress
from typing import Any

from sqlalchemy import Boolean, Connection, literal_column, or_, select

from colony import records
from colony.records import TABLES
from colony.records.rules import rules_of
from colony.refusals.books import RowDamaged
from colony.store.journal.rows import key_column
from colony.store.location import named


@dataclass(frozen=True)
class BrokenRule:
    """A row that its table does not allow, and the rule in words."""

    table: str
    key: int | str
    rule: str


def refuse_damaged(connection: Connection, location: str) -> None:
    """Refuse a book that holds a row which its table does not allow, by `RowDamaged`."""
    broken = next(broken_rules(connection), None)
    if broken is not None:
        raise RowDamaged(named(location), f"{broken.table} {broken.key}", broken.rule)


def broken_rules(connection: Connection) -> Iterator[BrokenRule]:
    """Every row that breaks a rule of its table, also one that is no CHECK of the database."""
    for name in TABLES:
        yield from _broken_rules(connection, getattr(records, name))


def _broken_rules(connection: Connection, record: Any) -> Iterator[BrokenRule]:  # noqa: ANN401 - any table
    dialect = connection.dialect.name
    rules = [rule for rule in rules_of(record) if rule.dialect in (None, dialect)]
    if not rules:
        return
    table = record.__table__
    key = key_column(table)
    broken = [literal_column(f"NOT ({rule.sql})", Boolean) for rule in rules]
    for number, *breaks in connection.execute(
        select(key, *broken).where(or_(*broken)).order_by(key)
    ):
        for rule in compress(rules, breaks):
            yield BrokenRule(table.name, number, rule.sentence)
