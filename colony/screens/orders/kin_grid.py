"""How some animals are related: the kinship of each with each."""

from collections.abc import Iterable
from typing import ClassVar

from textual.containers import VerticalScroll
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.pedigree.kinship import KinshipGrid, kinship_grid
from colony.screens.frame.page import Page

SHORTEST = 6
"""Columns of a kinship: ``0.1250``."""


class KinGrid(Page):
    """A grid of kinship; its subject's key has the tags, a line each."""

    HERE = "pups"
    HELP: ClassVar[str | None] = (
        "Each number is the kinship of two: the F of pups that they would have. Full sibs of "
        "unrelated parents stand at 0.25, half sibs at 0.125."
    )

    def body(self) -> Iterable[Widget]:
        """The grid."""
        with VerticalScroll():
            yield Static("", id="page-head", markup=False)

    def load(self) -> None:
        """Ask the pedigree."""
        self.ask(kinship_grid, self._show, tags=self.subject.key.split("\n"))

    def _show(self, grid: KinshipGrid) -> None:
        self.query_one("#page-head", Static).update(grid_in_words(grid))


def grid_in_words(grid: KinshipGrid) -> str:
    """The grid in columns, and the greatest kinship of two."""
    wide = max(SHORTEST, *map(len, grid.tags))
    head = " ".join([" " * wide, *(tag.rjust(wide) for tag in grid.tags)])
    rows = [
        " ".join(
            [
                tag.ljust(wide),
                *(
                    ("." if at == beside else f"{value:.4f}").rjust(wide)
                    for beside, value in enumerate(row)
                ),
            ]
        )
        for at, (tag, row) in enumerate(zip(grid.tags, grid.rows, strict=True))
    ]
    greatest = max((value for at, row in enumerate(grid.rows) for value in row[:at]), default=0.0)
    return "\n".join([head, *rows, "", f"Greatest kinship of two: {greatest:.4f}"])
