"""Draw the pedigree of an animal: in the terminal, or as a picture to print."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from sqlmodel import Session

from colony.exchange.text.writing import write_file
from colony.papers.chart.members import Scope
from colony.papers.chart.terminal import chart_lines
from colony.refusals.pedigree import NoSuchPicture
from colony.store.lookup import find_animal
from colony.store.readers.pedigree import Lineage, read_lineage

PICTURES = {
    ".svg": ("colony.papers.chart.svg", "chart_svg"),
    ".png": ("colony.papers.chart.printing", "chart_png"),
    ".pdf": ("colony.papers.chart.printing", "chart_pdf"),
}
"""What draws each kind of file; loaded when it is asked for."""


@dataclass(frozen=True)
class Generations:
    """How far a chart goes up and down."""

    up: int = 3
    down: int = 1


def chart_in_lines(
    session: Session, *, tag: str, generations: Generations, width: int
) -> list[str]:
    """Draw an animal with its ancestors and descendants in lines of text; `NoSuchTag`."""
    lineage, scope = _scope(session, tag, generations)
    return chart_lines(lineage.pedigree, scope, width=width)


def write_chart(
    session: Session, *, tag: str, path: Path, generations: Generations, overwrite: bool
) -> Path:
    """Draw an animal with its ancestors and descendants into an SVG, PNG or PDF file.

    Raises
    ------
    NoSuchTag, NoSuchPicture, WouldOverwrite, CannotWrite
    """
    lineage, scope = _scope(session, tag, generations)
    draw = _drawer(path)
    from colony.papers.chart.chart import draw_chart  # noqa: PLC0415 - only a picture needs it

    write_file(path, draw(draw_chart(lineage.pedigree, scope)), overwrite=overwrite)
    return path


def _drawer(path: Path) -> Callable[[Any], str | bytes]:
    if path.suffix.lower() not in PICTURES:
        raise NoSuchPicture(str(path), list(PICTURES))
    module, function = PICTURES[path.suffix.lower()]
    drawer: Callable[[Any], str | bytes] = getattr(import_module(module), function)
    return drawer


def _scope(session: Session, tag: str, generations: Generations) -> tuple[Lineage, Scope]:
    animal = find_animal(session, tag)
    lineage = read_lineage(session)
    dead = frozenset(at for at, row in enumerate(lineage.herd.rows) if row.status == "died")
    subject = lineage.herd.position[animal.id or 0]
    return lineage, Scope(subject, generations.up, generations.down, dead)
