"""What is wrong in a file: where it stands, and what would be right."""

from dataclasses import dataclass, field
from pathlib import PurePath

from colony.refusals.base import Remedy

LONGEST_SHOWN = 80


@dataclass(frozen=True, order=True)
class Fault:
    """One thing that is wrong in a file that is to be imported.

    `line` counts from 1, as an editor does; `column` is the heading as the file has it.
    """

    file: str
    line: int
    column: str
    value: str
    problem: str
    remedies: tuple[Remedy, ...] = field(default=(), compare=False)
    """What would put it right, where that is more than another cell."""

    @property
    def value_shown(self) -> str:
        """The cell, cut to a readable length."""
        return (
            self.value if len(self.value) <= LONGEST_SHOWN else f"{self.value[:LONGEST_SHOWN]}..."
        )

    @property
    def file_name(self) -> str:
        """The file without its folder."""
        return PurePath(self.file).name
