"""What an act changed: one row before and after, as a value."""

from dataclasses import dataclass
from types import NoneType
from typing import Any

Row = dict[str, Any]


@dataclass(frozen=True)
class RowChange:
    """One row before and after: all of it, or for a change the columns that differ."""

    table: str
    key: int | str
    before: Row | None
    after: Row | None


def step_of(written: Row) -> RowChange | None:
    """A step as the journal tells it; None where that is no step."""
    if written.keys() != {"table", "key", "before", "after"}:
        return None
    rows = [written["before"], written["after"]]
    right = isinstance(written["table"], str) and isinstance(written["key"], (int, str))
    return (
        RowChange(**written)
        if right and all(isinstance(row, (dict, NoneType)) for row in rows)
        else None
    )
