"""What the book says already, as far as a sheet of animals can agree with it or not."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from colony.exchange.folder.noun import NounRow
from colony.exchange.tables.parents import by_tag, litters_by_code, with_parents


@dataclass(frozen=True)
class BookRows:
    """The animals of the book with their parents by folded tag, where they are and how large."""

    animals: Mapping[str, NounRow] = field(default_factory=dict)
    tanks: Mapping[str, str] = field(default_factory=dict)
    """The code of every tank in use by its folded code."""
    places: Mapping[str, str] = field(default_factory=dict)
    """The code of the tank of everybody who is in one."""
    measurements: Mapping[str, Sequence[NounRow]] = field(default_factory=dict)
    """The measurements of each, oldest first."""


def book_rows(tables: Mapping[str, Sequence[NounRow]]) -> BookRows:
    """Gather what a sheet is held against from the rows of the book."""
    codes = (row.values["code"] for row in tables["tanks"] if row.values["retired_on"] is None)
    measurements: dict[str, list[NounRow]] = defaultdict(list)
    for row in sorted(tables["measurements"], key=lambda row: row.values["measured_on"]):
        measurements[row.values["animal"].casefold()].append(row)
    return BookRows(
        by_tag(with_parents(tables["animals"], litters_by_code(tables["litters"]))),
        {code.casefold(): code for code in codes},
        {
            row.values["animal"].casefold(): row.values["tank"]
            for row in tables["placements"]
            if row.values["left_on"] is None
        },
        measurements,
    )
