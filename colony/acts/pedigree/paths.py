"""Where an inbreeding coefficient or a kinship comes from, path by path."""

from dataclasses import dataclass

from sqlmodel import Session

from colony.papers.chart.why import why_lines
from colony.pedigree.paths.paths import Why, why_inbred, why_related
from colony.store.lookup import find_animal
from colony.store.readers.pedigree import read_lineage


@dataclass(frozen=True)
class PathLine:
    """One path: from one animal up to the common ancestor and down to the other."""

    ancestor: str
    path: list[str]
    adds: float


@dataclass(frozen=True)
class AncestorLine:
    """All paths through one common ancestor together."""

    ancestor: str
    paths: int
    adds: float


@dataclass(frozen=True)
class Explained:
    """Where a figure comes from; `paths` is empty where there are too many to be read."""

    tags: tuple[str, ...]
    inbreeding: float
    paths: list[PathLine]
    ancestors: list[AncestorLine]


def explain(session: Session, *, tag: str, other: str | None = None) -> Explained:
    """Explain the F of an animal, or the kinship of two: F of the pups they would have.

    Raises
    ------
    NoSuchTag
    """
    tags, why = _why(session, tag, other)
    return _explained(tags, why)


def draw_paths(
    session: Session, *, tag: str, other: str | None = None, width: int = 80
) -> list[str]:
    """Draw what `explain` lists, in lines no wider than `width`."""
    tags, why = _why(session, tag, other)
    return why_lines(why, tags[0] if len(tags) == 1 else "pup", width=width)


def _why(session: Session, tag: str, other: str | None) -> tuple[tuple[str, ...], Why]:
    lineage = read_lineage(session)
    animals = [find_animal(session, word) for word in (tag, other) if word is not None]
    places = [lineage.herd.position[animal.id or 0] for animal in animals]
    tags = tuple(dict.fromkeys(animal.tag for animal in animals))
    if len(tags) == 1:
        return tags, why_inbred(lineage.pedigree, places[0])
    return tags, why_related(lineage.pedigree, places[0], places[1])


def _explained(tags: tuple[str, ...], why: Why) -> Explained:
    return Explained(
        tags=tags,
        inbreeding=why.kinship,
        paths=[
            PathLine(path.ancestor, [*path.first, path.ancestor, *reversed(path.second)], path.adds)
            for path in why.paths
        ],
        ancestors=[
            AncestorLine(ancestor.ancestor, ancestor.paths, ancestor.adds)
            for ancestor in why.ancestors
        ],
    )
