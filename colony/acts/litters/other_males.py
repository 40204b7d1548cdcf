"""Warn of the males that a new litter does not name, and that were with its dam when she conceived."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date

from sqlmodel import Session

from colony.acts.animals.parents import PossibleParent
from colony.acts.litters.gestation import Conception
from colony.planning.litters.other_males import (
    Span,
    conception_window,
    may_be_grown,
    shared_days,
    whole,
)
from colony.records import Animal, Litter
from colony.refusals.base import Advice, act
from colony.store.readers.litters.dams import DamRecord, read_pairing_sires
from colony.store.readers.litters.meetings import read_shared_stays
from colony.store.readers.litters.other_males import read_male

Met = tuple[Animal, str, list[Span]]
"""A male, where or how he was with her, and on which days."""


def warn_of_other_males(
    session: Session,
    litter: Litter,
    record: DamRecord,
    fathers: Sequence[PossibleParent],
    conception: Conception,
) -> list[Advice]:
    """Name every other grown male of her species who was with her, a sentence each.

    A male of a pairing of hers counts whatever his species: he was put to her on purpose.
    """
    mother = session.get_one(Animal, litter.dam_id)
    spans = _spans(mother, record, conception, litter.born)
    named = {father.animal.id for father in fathers if father.animal}
    stays: dict[str, list[str]] = defaultdict(list)
    for male, how, days in (
        *_paired(session, record, spans),
        *_in_her_tanks(session, mother, spans, litter.born),
    ):
        if male.id not in named:
            stays[male.tag].append(f"{how} {_days(whole(days))}")
    remedy = act("litter edit", litter.code, sire="")
    return [
        Advice(
            f"{tag} was {' and '.join(how)}, when {mother.tag} may have conceived, "
            "and is not among the sires: name him too if he may be.",
            (remedy,),
        )
        for tag, how in stays.items()
    ]


def _spans(mother: Animal, record: DamRecord, conception: Conception, born: date) -> list[Span]:
    """The days of the species, and those of her pairing where its dates lie outside them."""
    evidence = record.evidence(mother.tag, born)
    spans = [conception_window(evidence, conception.prior, born)]
    pairing, judged = conception.pairing, conception.judged
    if pairing and judged and judged.verdict == "implausible":
        first = max(pairing.started, evidence.last_birth or pairing.started)
        spans.append((first, max(first, min(pairing.ended or born, born))))
    return spans


def _paired(session: Session, record: DamRecord, spans: Sequence[Span]) -> Iterator[Met]:
    males = read_pairing_sires(session)
    for pairing in record.pairings:
        if days := shared_days(pairing.started, pairing.ended, spans):
            for male_id in males.get(pairing.id, ()):
                yield session.get_one(Animal, male_id), "paired with her", days


def _in_her_tanks(
    session: Session, mother: Animal, spans: Sequence[Span], born: date
) -> Iterator[Met]:
    first, last = whole(spans)
    for stay in read_shared_stays(session, mother.id or 0, first, last):
        days = shared_days(stay.first, stay.left, spans)
        male = session.get_one(Animal, stay.animal_id)
        if not days or male.sex != "M" or male.species_id != mother.species_id:
            continue
        if may_be_grown(read_male(session, male, on=whole(days)[1], born=born)):
            yield male, f"in {stay.tank} with her", days


def _days(span: Span) -> str:
    return f"on {span[0]}" if span[0] == span[1] else f"from {span[0]} to {span[1]}"
