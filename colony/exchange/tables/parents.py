"""Whose pup each row of animals is: its own parents, or those of its litter."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from colony.exchange.folder.noun import NounRow
from colony.exchange.tables.sires import sires_of, split_sires

Litters = Mapping[str, Mapping[str, Any]]


def litters_by_code(rows: Iterable[NounRow]) -> dict[str, Mapping[str, Any]]:
    """The values of every litter by folded code."""
    return {row.values["code"].casefold(): row.values for row in rows}


def with_parents(rows: Iterable[NounRow], litters: Litters) -> list[NounRow]:
    """Rows of animals with every parent that is known, a pup's from its litter."""
    return [_with_parents(row, litters) for row in rows]


def _with_parents(row: NounRow, litters: Litters) -> NounRow:
    values = row.values
    litter = litters.get((values.get("litter") or "").casefold(), {})
    sires = sires_of(values) or tuple(litter.get("sires", ()))
    if not litter and not sires:
        return row
    parents = {"dam": values.get("dam") or litter.get("dam"), **split_sires(sires)}
    found = {"dam": parents["dam"] or "", "sire": " ".join(sire.tag or "" for sire in sires)}
    cells = {role: cell for role, cell in found.items() if cell} | dict(row.cells)
    return replace(row, values={**values, **parents}, cells=cells)


def by_tag(rows: Sequence[NounRow]) -> dict[str, NounRow]:
    """Rows of animals by folded tag."""
    return {row.values["tag"].casefold(): row for row in rows}
