"""Parents: loops, sexes, ages, shares, and whether a sire was in reach of the dam."""

from collections import defaultdict
from collections.abc import Iterator
from datetime import date
from math import isclose

from sqlalchemy import Select, select
from sqlmodel import Session, col

from colony.acts.book.checks.finding import Finding
from colony.records import Animal, Litter, Pairing, PairingSire, PossibleSire
from colony.refusals.base import Refusal, act
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.litters.parents import Parents, read_parents
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.readers.rows import read_rows


def possible_pedigree(session: Session, _today: date) -> Iterator[Finding]:
    """Nobody is its own ancestor, no dam is a male, no sire a female."""
    yield from _possible(read_lineage(session))


def parents_are_older(session: Session, _today: date) -> Iterator[Finding]:
    """Nobody is older than its dam or a possible sire."""
    yield from _older(read_parents(session, read_herd(session)))


def parentage(session: Session, _today: date) -> Iterator[Finding]:
    """Both of that, reading everybody once."""
    lineage = read_lineage(session)
    yield from _possible(lineage)
    yield from _older(lineage.parents)


def _possible(lineage: Lineage) -> Iterator[Finding]:
    try:
        lineage.pedigree  # noqa: B018 - building it is the check
    except Refusal as refusal:
        remedies = (act("animal edit"), act("litter edit"))
        yield Finding("pedigree", True, "parents", refusal.sentence, remedies)


def sexes_of_pairings(session: Session, _today: date) -> Iterator[Finding]:
    """A dam of a pairing is a female, its sires are males."""
    columns = (col(Animal.tag), col(Animal.sex), col(Pairing.started))
    dams = select(*columns).select_from(Pairing).join(Animal, col(Pairing.dam_id) == col(Animal.id))
    sires = (
        select(*columns)
        .select_from(PairingSire)
        .join(Animal, col(PairingSire.sire_id) == col(Animal.id))
        .join(Pairing, col(PairingSire.pairing_id) == col(Pairing.id))
    )
    for query, role, sex in ((dams, "dam", "F"), (sires, "sire", "M")):
        for tag, found, started in read_rows(session, query.where(col(Animal.sex) != sex)):
            problem = f"is the {role} of the pairing of {started} and is of sex {found}"
            yield Finding("sex", True, tag, problem, (act("animal edit", tag, sex=sex),))


def _older(parents: Parents) -> Iterator[Finding]:
    for row in parents.herd.rows:
        for parent_id in (parents.dam_id(row), *(sire for sire, _ in parents.sires(row))):
            parent = parents.herd.by_id(parent_id) if parent_id else None
            if parent and parent.born and row.birthday and parent.born >= row.birthday.last:
                problem = (
                    f"its parent {parent.tag} was born on {parent.born}, not before {row.born}"
                )
                remedies = tuple(act("animal edit", tag, born="") for tag in (row.tag, parent.tag))
                yield Finding("parent age", True, row.tag, problem, remedies)


def shares_sum_to_one(session: Session, _today: date) -> Iterator[Finding]:
    """The doubtful sires of a litter, or of an animal, are together certain."""
    of_litters = (
        select(col(Litter.code), col(PossibleSire.share))
        .select_from(PossibleSire)
        .join(Litter, col(PossibleSire.litter_id) == col(Litter.id))
    )
    of_animals = (
        select(col(Animal.tag), col(PossibleSire.share))
        .select_from(PossibleSire)
        .join(Animal, col(PossibleSire.animal_id) == col(Animal.id))
    )
    yield from _unsound(session, of_litters, "litter edit")
    yield from _unsound(session, of_animals, "animal edit")


def _unsound(session: Session, query: Select[str, float], writing: str) -> Iterator[Finding]:
    shares: dict[str, list[float]] = defaultdict(list)
    for name, share in read_rows(session, query):
        shares[name].append(share)
    for name, given in shares.items():
        if not isclose(sum(given), 1, abs_tol=1e-6):
            problem = f"the shares of its sires sum to {sum(given):.4g}"
            yield Finding("shares", True, name, problem, (act(writing, name, sire="TAG=SHARE"),))
