"""Which rows an act affected: kept beside the journal, so that an animal's acts are found at once."""

from collections.abc import Callable, Iterable, Iterator, Sequence

from sqlalchemy import Table, insert, select
from sqlmodel import Session

from colony.records import JournalPlace
from colony.refusals.history import JournalDamaged, JournalOutgrown
from colony.store.journal.entries import UNDOES, RecordedAct, read_entries
from colony.store.journal.rows import Place, key_column, references, table_named
from colony.store.journal.steps import Row, RowChange

NAMES = {"animal": "tag", "tank": "code"}
"""By which column a person names a row."""

THROUGH = ("pairing", "litter")
"""Rows that only tie others together: what affects them affects those."""

_PLACES: Table = JournalPlace.__table__  # type: ignore[attr-defined] # sqlmodel adds it
_AT_ONCE = 1000


def name_place(table: str, name: object) -> tuple[str, str]:
    """The place of a name that a person gave: ``("animal.tag", "alma")``."""
    return f"{table}.{NAMES[table]}", str(name).casefold()


class Affected:
    """Tells the rows that steps affect; a row of which a step says little is looked up."""

    def __init__(self, look_up: Callable[[Place], Row]) -> None:
        self._rows: dict[Place, Row] = {}
        self._look_up = look_up

    def by(self, steps: Iterable[RowChange]) -> set[Place]:
        """The rows that an act affected and those they belong to; call it in the order of acts."""
        affected: set[Place] = set()
        for step in steps:
            affected |= self._of_step(step)
        return affected

    def _of_step(self, step: RowChange) -> set[Place]:
        place = (step.table, step.key)
        known = {} if step.before is None else self._known(place)
        changed = (step.after or {}).keys() | (step.before or {}).keys()
        affected = {place}
        for version in (known | (step.before or {}), known | (step.after or {})):
            # What is mended of a pup is no act of its dam, unless it is who the dam is.
            row = {k: v for k, v in version.items() if step.table != "animal" or k in changed}
            affected |= self._belongs(step.table, row)
        self._rows[place] = known | (step.before or {}) | (step.after or {})
        return affected

    def _belongs(self, table: str, row: Row) -> set[Place]:
        """What a row refers to; through a pairing or a litter, what that refers to."""
        found: set[Place] = set()
        for _, place in references(table_named(table), row):
            found.add(place)
            if place[0] in THROUGH and table != "animal":
                further = references(table_named(place[0]), self._known(place))
                found |= {far for _, far in further}
        return found

    def _known(self, place: Place) -> Row:
        if place not in self._rows:
            self._rows[place] = self._look_up(place)
        return self._rows[place]


def write_places(
    session: Session, entry_id: int, steps: Sequence[RowChange], undoes: Iterable[int] = ()
) -> None:
    """Keep what an act affected, beside its entry."""

    def look_up(place: Place) -> Row:
        table = table_named(place[0])
        query = select(table).where(key_column(table) == place[1])
        row = session.connection().execute(query).mappings().first()
        return dict(row) if row is not None else {}

    _insert(session, _rows(entry_id, Affected(look_up), steps, undoes))


def fill_places(session: Session) -> None:
    """Keep what each act of a book affected that has not been kept yet, from the first act on."""
    done = set(session.connection().scalars(select(_PLACES.c.entry_id).distinct()))
    affected = Affected(lambda _place: {})
    rows: list[dict[str, object]] = []
    for entry in read_entries(session):
        try:
            found = _rows(entry.number, affected, entry.steps, entry.undoes)
        except JournalOutgrown:  # of a table that is no more: only what it undid is of use
            found = _rows(entry.number, affected, (), entry.undoes)
        except JournalDamaged:
            continue  # `book check` says it
        if entry.number not in done:
            rows += found
    _insert(session, rows)


def acts_of(session: Session, places: Iterable[tuple[str, object]]) -> set[int]:
    """The numbers of the acts that affected any of some rows."""
    numbers: set[int] = set()
    for place, key in places:
        query = select(_PLACES.c.entry_id).where(
            _PLACES.c.place == place, _PLACES.c.key == str(key)
        )
        numbers.update(session.connection().scalars(query))
    return numbers


def rows_named(entries: Iterable[RecordedAct], table: str, name: str) -> set[Place]:
    """The rows of a table that some acts gave a tag or code, whatever its case."""
    _, wanted = name_place(table, name)
    return {
        (table, step.key)
        for entry in entries
        for step in entry.steps
        if step.table == table and wanted in (key for _, key in _names(step))
    }


def _rows(
    entry_id: int, affected: Affected, steps: Iterable[RowChange], undoes: Iterable[int]
) -> list[dict[str, object]]:
    steps = tuple(steps)
    places: set[tuple[str, object]] = {*affected.by(steps)}
    places |= {named for step in steps for named in _names(step)}
    places |= {(UNDOES, number) for number in undoes}
    return [{"entry_id": entry_id, "place": place, "key": str(key)} for place, key in places]


def _names(step: RowChange) -> Iterator[tuple[str, str]]:
    column = NAMES.get(step.table)
    for row in (step.before, step.after):
        if column and row and row.get(column) is not None:
            yield name_place(step.table, row[column])


def _insert(session: Session, rows: Sequence[dict[str, object]]) -> None:
    for start in range(0, len(rows), _AT_ONCE):
        session.connection().execute(insert(_PLACES), list(rows[start : start + _AT_ONCE]))
