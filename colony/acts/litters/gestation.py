"""What the dates around a birth say: impossible is refused, implausible is warned of."""

from collections.abc import Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.animals.parents import PossibleParent
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.judgement import (
    SHORTEST_SHARE,
    GestationJudgement,
    judge_gestation,
)
from colony.records import Animal, Species
from colony.refusals.litters import ImpossibleGestation, SireCannotBe, TooSoonAfterBirth
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.dams import DamRecord, PairingRow, read_pairing_sires

YOUNG_DAM_DAYS = 540
"""A dam younger than this at a birth is worth a second look; common practice, no source."""

_LIKELIHOOD = {"plausible": 2, "implausible": 1, "impossible": 0}


@dataclass(frozen=True)
class Conception:
    """The pairing that a litter comes from, and what its dates say; None where there is none.

    `asked` says that the sires were named, so that no pairing is needed to know them.
    """

    prior: GestationPrior
    pairing: PairingRow | None
    judged: GestationJudgement | None
    asked: bool


def find_conception(
    session: Session,
    mother: Animal,
    record: DamRecord,
    asked: Sequence[PossibleParent],
    born: date,
) -> Conception:
    """Find the pairing since her last birth that fits the day of birth best, the later of equals.

    A dam is often with the next male before she bears the pups of the last one. Where sires
    were named, only pairings with one of them count.
    """
    species = session.get(Species, mother.species_id) if mother.species_id else None
    prior = read_lives(session).of(species.name if species else None).gestation()
    named = {father.animal.id or 0 for father in asked if father.animal}
    males = read_pairing_sires(session) if named else {}
    return replace(conception_of(prior, record, named, males, born), asked=bool(asked))


def conception_of(
    prior: GestationPrior,
    record: DamRecord,
    named: AbstractSet[int],
    males: Mapping[int, Sequence[int]],
    born: date,
) -> Conception:
    """The same with everything read already: the sires `named`, and the males of each pairing."""
    among = [
        pairing
        for pairing in record.pairings
        if not named or named & set(males.get(pairing.id, ()))
    ]
    found = likeliest_pairing(prior, record, among, born)
    pairing, judged = found or (None, None)
    return Conception(prior, pairing, judged, asked=bool(named))


def likeliest_pairing(
    prior: GestationPrior, record: DamRecord, among: Iterable[PairingRow], born: date
) -> tuple[PairingRow, GestationJudgement] | None:
    """The pairing since her last birth that fits a day of birth best, the later of equals."""
    opened = record.last_birth(born)
    judged = [
        (
            pairing,
            judge_gestation(
                prior, max(pairing.started, opened or pairing.started), pairing.ended, born
            ),
        )
        for pairing in among
        if pairing.started <= born and (opened is None or (pairing.ended or born) >= opened)
    ]
    return max(
        judged, key=lambda pair: (_LIKELIHOOD[pair[1].verdict], pair[0].started), default=None
    )


def judge_birth(
    mother: Animal,
    record: DamRecord,
    fathers: Sequence[PossibleParent],
    born: date,
    conception: Conception,
) -> list[str]:
    """Hold a birth against the dam's last one, her pairings, and the sires' lives.

    Returns what looks odd, a sentence each.

    Raises
    ------
    TooSoonAfterBirth, ImpossibleGestation, SireCannotBe
    """
    apart = timedelta(days=round(SHORTEST_SHARE * conception.prior.low_days))
    for litter in record.births:
        if abs(litter.born - born) < apart:
            raise TooSoonAfterBirth(mother.tag, born, litter.born, apart.days)
    _refuse_dead_sires(fathers, conception.prior, born)
    doubts = []
    judged = conception.judged
    if judged is not None and judged.verdict == "impossible":
        raise ImpossibleGestation(mother.tag, born, judged.reason)
    if judged is not None and judged.verdict != "plausible":
        doubts.append(f"{mother.tag}: {judged.reason}.")
    if mother.born is not None and (age := (born - mother.born).days) < YOUNG_DAM_DAYS:
        doubts.append(f"{mother.tag} was {age} days old at the birth: check her tag.")
    return [*doubts, *_sire_doubts(mother, fathers, born, conception)]


def _refuse_dead_sires(
    fathers: Sequence[PossibleParent], prior: GestationPrior, born: date
) -> None:
    earliest = born - timedelta(days=round(2 * prior.high_days))
    for father in fathers:
        sire = father.animal
        if sire is not None and sire.ended_on is not None and sire.ended_on < earliest:
            raise SireCannotBe(
                sire.tag, f"he left the house on {sire.ended_on}, too long before {born}"
            )


def _sire_doubts(
    mother: Animal, fathers: Sequence[PossibleParent], born: date, conception: Conception
) -> list[str]:
    if conception.pairing is not None:
        return []
    known = [father.animal.tag for father in fathers if father.animal]
    if known:
        return [f"{mother.tag} was in no recorded pairing with {' or '.join(known)} before {born}."]
    if conception.asked:
        return []
    return [f"{mother.tag} was in no pairing before {born}: the sire is unknown."]
