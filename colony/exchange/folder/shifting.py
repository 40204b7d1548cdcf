"""Move a whole colony in time, so that an old one is of today."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from colony.exchange.folder.folder import ColonyFolder
from colony.exchange.folder.noun import NounRow
from colony.notation.days import Day


def shifted(folder: ColonyFolder, to: date) -> ColonyFolder:
    """The same colony with every date as many days later as `to` is after its own day."""
    by = to - folder.heading.as_of
    tables: Mapping[str, Sequence[NounRow]] = {
        name: tuple(
            replace(row, values={column: _value(value, by) for column, value in row.values.items()})
            for row in rows
        )
        for name, rows in folder.tables.items()
    }
    return replace(folder, heading=replace(folder.heading, as_of=to), tables=tables)


def _value(value: Any, by: timedelta) -> Any:  # noqa: ANN401 - whatever a cell holds
    if isinstance(value, date):
        return value + by
    if isinstance(value, Day):
        # A month begins on its first day, and a year on the first of January.
        start = {"day": {}, "month": {"day": 1}, "year": {"month": 1, "day": 1}}[value.precision]
        return Day((value.first + by).replace(**start), value.precision)
    return value
