"""Rows that are not as their tables allow: somebody changed them past the program."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlalchemy import CheckConstraint, Connection, literal_column, select

from colony.records import every_table
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
    """Every row of a SQLite file that breaks a rule of its table; PostgreSQL lets nobody."""
    if connection.dialect.name != "sqlite":
        return
    for table in every_table().sorted_tables:
        key = key_column(table)
        for rule in table.constraints:
            if isinstance(rule, CheckConstraint):
                words = str(rule.name).removeprefix(f"ck_{table.name}_").replace("_", " ")
                broken = select(key).where(literal_column(f"NOT ({rule.sqltext})"))
                for (number,) in connection.execute(broken):
                    yield BrokenRule(table.name, number, words)
