"""Where an animal is from: its chain of origin, and the papers that would complete the herd's."""

from dataclasses import dataclass

import numpy as np
from sqlmodel import Session, col, select

from colony.notation.days import Day
from colony.pedigree.graph.generations import generation_numbers
from colony.planning.proofs.chain import (
    Link,
    MissingPaper,
    OnRecord,
    SourceCode,
    chain_of,
    missing_papers,
    source_codes,
)
from colony.records import Animal, Litter
from colony.store.lookup import find_animal
from colony.store.readers.litters.conceived import read_conceived_elsewhere
from colony.store.readers.pedigree import Lineage, read_lineage


@dataclass(frozen=True)
class Missing:
    """What is missing of an animal of a chain, and how many steps it is away."""

    tag: str
    what: str
    step: int


@dataclass(frozen=True)
class Origin:
    """The chain of one animal, what is missing in it nearest first, and the source codes."""

    tag: str
    chain: tuple[Link, ...]
    missing: tuple[Missing, ...]
    codes: tuple[SourceCode, ...]


def show_origin(session: Session, *, tag: str) -> Origin:
    """From an animal over its parents to each founder.

    Raises
    ------
    NoSuchTag
    """
    name = find_animal(session, tag).tag
    book = _on_record(session, read_lineage(session))
    chain = chain_of(name, book)
    return Origin(
        name,
        chain,
        tuple(Missing(link.tag, what, link.step) for link in chain for what in link.missing),
        source_codes(book[name], book),
    )


def missing_of_herd(session: Session) -> list[MissingPaper]:
    """What is missing in the chains of all that are here, what completes the most first."""
    lineage = read_lineage(session)
    here = [row.tag for row in lineage.herd.rows if row.status == "present"]
    return missing_papers(here, _on_record(session, lineage))


def _on_record(session: Session, lineage: Lineage) -> dict[str, OnRecord]:
    rows = lineage.herd.rows
    elsewhere = read_conceived_elsewhere(session)
    wild_litter = [row.litter_id in elsewhere.wild for row in rows]
    wild = np.array([row.origin == "wild" for row in rows], dtype=bool) | np.array(
        wild_litter, dtype=bool
    )
    unsure = np.array([row.litter_id in elsewhere.maybe for row in rows], dtype=bool)
    numbers = generation_numbers(lineage.pedigree, wild, unsure).tolist() if rows else []
    more = {
        row[0]: row[1:]
        for row in session.exec(
            select(
                col(Animal.id),
                col(Animal.arrived),
                col(Animal.arrived_from),
                col(Animal.transponder),
            )
        )
    }
    codes = dict(session.exec(select(col(Litter.id), col(Litter.code))).all())
    parents = lineage.parents
    return {
        row.tag: OnRecord(
            tag=row.tag,
            sex=row.sex,
            origin=row.origin,
            born=str(Day(row.born, row.born_precision)) if row.born else "",
            litter=codes.get(row.litter_id, "") if row.litter_id else "",
            dam=parents.tag(parents.dam_id(row)),
            sires=tuple(parents.tag(sire) for sire, _ in parents.sires(row)),
            arrived=str(more[row.id][0] or ""),
            arrived_from=more[row.id][1] or "",
            transponder=more[row.id][2] or "",
            generation=numbers[at],
            wild_conceived=wild_litter[at],
        )
        for at, row in enumerate(rows)
    }
