"""What was seen of each dam: evidence of conception, births, and gestations on record."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from typing import NamedTuple

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.litters.company import Company
from colony.planning.litters.conception import Check, Evidence, Sign
from colony.planning.litters.gestation import GestationLength, GestationPrior
from colony.planning.litters.gestations import gestation_length
from colony.records import Litter, MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.store.readers.animals.herd import Herd
from colony.store.readers.rows import read_rows

_FINDING = {
    "pregnant": "gravid",
    "nothing seen": "nothing seen",
    "false alarm": "false alarm",
    "aborted": "aborted",
}
"""Words of the book in the words of the model; courtship and "unsure" prove nothing."""


class PairingRow(NamedTuple):
    """A dam kept with males from a day to a day."""

    id: int
    dam_id: int
    started: date
    ended: date | None


class SignRow(NamedTuple):
    """A mating sign seen of a dam, and with whom if that was seen."""

    dam_id: int
    seen_on: date
    kind: str
    sire_id: int | None


class FindingRow(NamedTuple):
    """What was found of a female on a day."""

    dam_id: int
    found_on: date
    finding: str


class BirthRow(NamedTuple):
    """A birth on record."""

    id: int
    code: str
    dam_id: int
    born: date
    pairing_id: int | None


@dataclass
class DamRecord:
    """One dam's pairings, signs, findings and births, each in order of date.

    `company` are the grown males that were with her of late, where that was asked for.
    """

    pairings: list[PairingRow] = field(default_factory=list)
    signs: list[SignRow] = field(default_factory=list)
    findings: list[FindingRow] = field(default_factory=list)
    births: list[BirthRow] = field(default_factory=list)
    company: list[Company] = field(default_factory=list)

    def last_birth(self, before: date) -> date | None:
        """Her last birth before a day."""
        return max((birth.born for birth in self.births if birth.born < before), default=None)

    def pairing_before(self, day: date) -> PairingRow | None:
        """The pairing that began last before a day."""
        begun = [pairing for pairing in self.pairings if pairing.started <= day]
        return max(begun, key=lambda pairing: pairing.started, default=None)

    def evidence(self, tag: str, today: date) -> Evidence:
        """Everything that speaks for or against a pregnancy on a day."""
        last_birth = max((birth.born for birth in self.births if birth.born <= today), default=None)
        signs, checks = self._seen()
        return Evidence(
            dam=tag,
            signs=signs,
            kept=tuple(stay.span for male in self.company for stay in male.stays),
            paired=any(
                pairing.started <= today and (pairing.ended or today) >= (last_birth or date.min)
                for pairing in self.pairings
            ),
            checks=checks,
            last_birth=last_birth,
        )

    def gestation_lengths(self, tag: str, prior: GestationPrior) -> Iterable[GestationLength]:
        """Each recorded gestation of which something was seen when it began."""
        by_id, (signs, checks) = {pairing.id: pairing for pairing in self.pairings}, self._seen()
        for litter in self.births:
            pairing = by_id.get(litter.pairing_id or 0) or self.pairing_before(litter.born)
            ended = pairing.ended if pairing else None
            before = Evidence(
                dam=tag,
                signs=tuple(sign for sign in signs if ended is None or sign.day <= ended),
                kept=((pairing.started, ended),) if pairing else (),
                paired=pairing is not None,
                checks=checks,
                last_birth=self.last_birth(litter.born),
            )
            gestation = gestation_length(before, litter.born, prior)
            if gestation is not None:
                yield gestation

    def _seen(self) -> tuple[tuple[Sign, ...], tuple[Check, ...]]:
        checks = (
            Check(row.found_on, _FINDING[row.finding])  # type: ignore[arg-type]
            for row in self.findings
            if row.finding in _FINDING
        )
        return tuple(_signs(self.signs)), tuple(checks)


def read_dams(session: Session, herd: Herd) -> dict[int, DamRecord]:
    """Read what is on record of every female that was paired, looked at or gave birth."""
    dams: dict[int, DamRecord] = defaultdict(DamRecord)
    for pairing in map(PairingRow._make, read_rows(session, _PAIRINGS)):
        dams[pairing.dam_id].pairings.append(pairing)
    for sign in map(SignRow._make, read_rows(session, _SIGNS)):
        dams[sign.dam_id].signs.append(sign)
    for found in map(FindingRow._make, read_rows(session, _FINDINGS)):
        dams[found.dam_id].findings.append(found)
    for birth in map(BirthRow._make, read_rows(session, _BIRTHS)):
        dams[birth.dam_id].births.append(birth)
    return {dam: record for dam, record in dams.items() if dam in herd.position}


def read_pairing_sires(session: Session) -> dict[int, list[int]]:
    """The males of every pairing, by pairing id."""
    males: dict[int, list[int]] = defaultdict(list)
    query = select(col(PairingSire.pairing_id), col(PairingSire.sire_id)).order_by(
        col(PairingSire.id)
    )
    for pairing_id, sire_id in read_rows(session, query):
        males[pairing_id].append(sire_id)
    return males


_PAIRINGS = select(
    col(Pairing.id), col(Pairing.dam_id), col(Pairing.started), col(Pairing.ended)
).order_by(col(Pairing.started))
_SIGNS = (
    select(
        func.coalesce(col(MatingSign.dam_id), col(Pairing.dam_id)),
        col(MatingSign.seen_on),
        col(MatingSign.kind),
        col(MatingSign.sire_id),
    )
    .join(Pairing, col(MatingSign.pairing_id) == col(Pairing.id), isouter=True)
    .order_by(col(MatingSign.seen_on))
)
_FINDINGS = select(
    col(PregnancyFinding.dam_id), col(PregnancyFinding.found_on), col(PregnancyFinding.finding)
).order_by(col(PregnancyFinding.found_on))
_BIRTHS = select(
    col(Litter.id), col(Litter.code), col(Litter.dam_id), col(Litter.born), col(Litter.pairing_id)
).order_by(col(Litter.born))


def _signs(signs: Iterable[SignRow]) -> Iterable[Sign]:
    for sign in signs:
        if sign.kind == "bite marks":
            yield Sign(sign.seen_on, "bites", sign.sire_id)
        elif sign.kind == "copulation":
            yield Sign(sign.seen_on, "copulation", sign.sire_id)
