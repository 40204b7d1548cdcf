"""Which animals and tanks an act affected, read from the journal alone."""

from collections.abc import Iterable

from colony.store.journal.entries import RecordedAct
from colony.store.journal.journal import Row, RowChange
from colony.store.journal.rows import Place, references, table_named

NAMES = {"animal": "tag", "tank": "code"}
"""By which column a person names a row."""

THROUGH = ("pairing", "litter")
"""Rows that only tie others together: what affects them affects those."""


class Affected:
    """Follows the journal from its beginning, so that a change of a few columns is placed too."""

    def __init__(self) -> None:
        self._rows: dict[Place, Row] = {}

    def by(self, entry: RecordedAct) -> set[Place]:
        """The rows that an act affected and those they belong to; call it in the order of acts."""
        affected: set[Place] = set()
        for step in entry.steps:
            affected |= self._of_step(step)
        return affected

    def named(self, entries: Iterable[RecordedAct], table: str, name: str) -> set[Place]:
        """Rows of a table that ever had a tag or code, whatever its case."""
        column, wanted = NAMES[table], name.casefold()
        return {
            (table, step.key)
            for entry in entries
            for step in entry.steps
            if step.table == table
            and any(
                str((row or {}).get(column)).casefold() == wanted
                for row in (step.before, step.after)
            )
        }

    def _of_step(self, step: RowChange) -> set[Place]:
        place = (step.table, step.key)
        known = self._rows.get(place, {})
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
                further = references(table_named(place[0]), self._rows.get(place, {}))
                found |= {far for _, far in further}
        return found
