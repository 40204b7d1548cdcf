"""What the journal alone tells of every row, beside what the tables hold."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from sqlalchemy import Connection, Table, select

from colony.records import every_table
from colony.store.journal.entries import RecordedAct
from colony.store.journal.rows import Place, kept_tables, key_column, typed
from colony.store.journal.steps import Row, RowChange

Rows = dict[Place, Row]


@dataclass(frozen=True)
class Difference:
    """A row that is not as the journal has it; None where one side has no such row."""

    place: Place
    recorded: Row | None
    kept: Row | None

    @property
    def step(self) -> RowChange:
        """The step that would make the journal tell what the tables hold."""
        if self.recorded is None or self.kept is None:
            return RowChange(*self.place, self.recorded, self.kept)
        after = {
            name: value for name, value in self.kept.items() if value != self.recorded.get(name)
        }
        return RowChange(*self.place, {name: self.recorded.get(name) for name in after}, after)


def recorded_rows(entries: Iterable[RecordedAct]) -> Rows:
    """Every row as the acts of the journal left it, from its first act to its last.

    Tables and columns that a later schema dropped are left out.
    """
    rows: Rows = {}
    for entry in entries:
        for step in entry.steps:
            place = (step.table, step.key)
            if step.after is None:
                rows.pop(place, None)
            else:
                rows[place] = rows.get(place, {}) | step.after
    return {place: row for place, recorded in rows.items() if (row := _as_kept(place, recorded))}


def kept_rows(connection: Connection) -> Rows:
    """Every row as the tables hold it, the journal's own left out."""
    return {
        (table.name, row[key_column(table).name]): dict(row)
        for table in kept_tables()
        for row in connection.execute(select(table)).mappings()
    }


def differences(recorded: Rows, kept: Rows) -> list[Difference]:
    """Rows on which the journal and the tables do not agree, in the order of the tables."""
    places = dict.fromkeys((*kept, *recorded))
    return [
        Difference(place, recorded.get(place), kept.get(place))
        for place in places
        if recorded.get(place) != kept.get(place)
    ]


def by_table(rows: Rows) -> Iterator[tuple[Table, list[Row]]]:
    """Rows table by table, those that are referred to first, each in the order of its keys."""
    for table in kept_tables():
        here = [(place[1], row) for place, row in rows.items() if place[0] == table.name]
        yield table, [row for _, row in sorted(here, key=lambda row: row[0])]


def _as_kept(place: Place, row: Row) -> Row | None:
    table = every_table().tables.get(place[0])
    if table is None:
        return None
    # A column that came with a later schema says nothing of what was written before it.
    later = {column.name: None for column in table.c if column.nullable}
    return typed(table, {name: value for name, value in (later | row).items() if name in table.c})
