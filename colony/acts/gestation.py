"""What the dates around a birth say: impossible is refused, implausible is warned of."""

from collections.abc import Sequence
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.parentage import PossibleParent
from colony.planning.gestation import GestationPrior
from colony.planning.gestation_judgement import SHORTEST_SHARE, judge_gestation
from colony.records import Animal
from colony.refusals.litters import ImpossibleGestation, SireCannotBe, TooSoonAfterBirth
from colony.store.readers.dams import DamRecord
from colony.store.readers.herd import read_herd
from colony.store.readers.lives import read_lives

YOUNG_DAM_DAYS = 540
"""A dam younger than this at a birth is worth a second look; common practice, no source."""


def judge_birth(
    session: Session,
    mother: Animal,
    record: DamRecord,
    fathers: Sequence[PossibleParent],
    born: date,
    *,
    asked: bool,
) -> list[str]:
    """Hold a birth against the dam's last one, her pairing and signs, and the sires' lives.

    Returns what looks odd, a sentence each.

    Raises
    ------
    TooSoonAfterBirth, ImpossibleGestation, SireCannotBe
    """
    assert mother.id is not None  # noqa: S101 - she is in the book
    species = read_herd(session).by_id(mother.id).species
    prior = read_lives(session).of(species).gestation()
    _refuse_too_soon(mother, record, prior, born)
    _refuse_dead_sires(fathers, prior, born)
    warnings = [*_gestation_doubts(mother, record, prior, born), *_age_doubts(mother, born)]
    if not asked and all(one.animal is None for one in fathers):
        warnings.append(f"{mother.tag} was in no pairing before {born}: the sire is unknown.")
    return warnings


def _refuse_too_soon(mother: Animal, record: DamRecord, prior: GestationPrior, born: date) -> None:
    rest = timedelta(days=round(SHORTEST_SHARE * prior.low_days))
    for litter in record.births:
        if abs(litter.born - born) < rest:
            raise TooSoonAfterBirth(mother.tag, litter.born, litter.born + rest)


def _refuse_dead_sires(
    fathers: Sequence[PossibleParent], prior: GestationPrior, born: date
) -> None:
    earliest = born - timedelta(days=round(2 * prior.high_days))
    for one in fathers:
        sire = one.animal
        if sire is not None and sire.ended_on is not None and sire.ended_on < earliest:
            raise SireCannotBe(
                sire.tag, f"he left the house on {sire.ended_on}, too long before {born}"
            )


def _gestation_doubts(
    mother: Animal, record: DamRecord, prior: GestationPrior, born: date
) -> list[str]:
    window = conception_window(record, born)
    if window is None:
        return []
    judged = judge_gestation(prior, window[0], window[1], born)
    if judged.verdict == "impossible":
        raise ImpossibleGestation(mother.tag, born, judged.reason)
    return [f"{mother.tag}: {judged.reason}."] if judged.verdict == "implausible" else []


def conception_window(record: DamRecord, born: date) -> tuple[date, date | None] | None:
    """First and last day of possible conception in the pairing before a birth, if there was one."""
    opened = record.last_birth(born)
    pairing = record.pairing_before(born)
    if pairing is None:
        return None
    first = pairing.started if opened is None else max(pairing.started, opened)
    return first, pairing.ended


def _age_doubts(mother: Animal, born: date) -> list[str]:
    if mother.born is None or (born - mother.born).days >= YOUNG_DAM_DAYS:
        return []
    return [f"{mother.tag} was {(born - mother.born).days} days old at the birth: check her tag."]
