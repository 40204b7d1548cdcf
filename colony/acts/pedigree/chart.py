"""Draw the pedigree of an animal: in the terminal, or as a picture to print."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from sqlmodel import Session

from colony.exchange.text.writing import write_file
from colony.papers.chart.members import Scope
from colony.papers.chart.terminal import chart_lines
from colony.refusals.pedigree import NoSuchPicture
from colony.store.lookup import find_animal
from colony.store.readers.pedigree import Lineage, read_lineage

if TYPE_CHECKING:
    from colony.papers.chart.drawing import Drawing


def _svg(drawing: "Drawing") -> str:
    from colony.papers.chart.svg import chart_svg  # noqa: PLC0415 - only a picture needs it

    return chart_svg(drawing)


def _png(drawing: "Drawing") -> bytes:
    from colony.papers.chart.printing import chart_png  # noqa: PLC0415 - the same

    return chart_png(drawing)


def _pdf(drawing: "Drawing") -> bytes:
    from colony.papers.chart.printing import chart_pdf  # noqa: PLC0415 - the same

    return chart_pdf(drawing)


PICTURES: dict[str, Callable[["Drawing"], str | bytes]] = {".svg": _svg, ".png": _png, ".pdf": _pdf}
"""What draws each kind of file; its library is loaded when it is asked for."""


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
    draw = PICTURES.get(path.suffix.lower())
    if draw is None:
        raise NoSuchPicture(str(path), list(PICTURES))
    from colony.papers.chart.chart import draw_chart  # noqa: PLC0415 - only a picture needs it

    write_file(path, draw(draw_chart(lineage.pedigree, scope)), overwrite=overwrite)
    return path


def _scope(session: Session, tag: str, generations: Generations) -> tuple[Lineage, Scope]:
    animal = find_animal(session, tag)
    lineage = read_lineage(session)
    dead = frozenset(at for at, row in enumerate(lineage.herd.rows) if row.status == "died")
    subject = lineage.herd.position[animal.id or 0]
    return lineage, Scope(subject, generations.up, generations.down, dead)
