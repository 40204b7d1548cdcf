"""What was seen of each dam: evidence of conception, births, and gestations on record."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from colony.planning.carried import carried
from colony.planning.conception import Check, Evidence, Sign
from colony.planning.gestation import Carried, GestationPrior
from colony.records import Litter, MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.store.readers.herd import Herd

_FINDING = {
    "pregnant": "gravid",
    "nothing seen": "nothing seen",
    "false alarm": "false alarm",
    "aborted": "aborted",
}
"""Words of the book in the words of the model; courtship and "unsure" prove nothing."""


@dataclass
class DamRecord:
    """One dam's pairings, signs, findings and births, each in order of date."""

    pairings: list[Pairing] = field(default_factory=list)
    signs: list[MatingSign] = field(default_factory=list)
    findings: list[PregnancyFinding] = field(default_factory=list)
    births: list[Litter] = field(default_factory=list)

    def last_birth(self, before: date) -> date | None:
        """Her last birth before a day."""
        return max((one.born for one in self.births if one.born < before), default=None)

    def pairing_before(self, day: date) -> Pairing | None:
        """The pairing that began last before a day."""
        begun = [one for one in self.pairings if one.started <= day]
        return max(begun, key=lambda one: one.started, default=None)

    def evidence(self, tag: str, today: date) -> Evidence:
        """Everything that speaks for or against a pregnancy on a day."""
        last_birth = max((one.born for one in self.births if one.born <= today), default=None)
        return replace(self._seen(tag), last_birth=last_birth, **_kept(self.pairing_before(today)))

    def carried(self, tag: str, prior: GestationPrior) -> Iterable[Carried]:
        """Each recorded gestation of which something was seen when it began."""
        by_id, seen = {one.id: one for one in self.pairings}, self._seen(tag)
        for litter in self.births:
            pairing = by_id.get(litter.pairing_id) or self.pairing_before(litter.born)
            before = replace(seen, last_birth=self.last_birth(litter.born), **_kept(pairing))
            gestation = carried(before, litter.born, prior)
            if gestation is not None:
                yield gestation

    def _seen(self, tag: str) -> Evidence:
        return Evidence(tag, signs=tuple(_signs(self.signs)), checks=tuple(_checks(self.findings)))


def read_dams(session: Session, herd: Herd) -> dict[int, DamRecord]:
    """Read what is on record of every female that was paired, looked at or gave birth."""
    dams: dict[int, DamRecord] = defaultdict(DamRecord)
    by_pairing: dict[int | None, int] = {}
    for pairing in session.scalars(select(Pairing).order_by(col(Pairing.started))):
        dams[pairing.dam_id].pairings.append(pairing)
        by_pairing[pairing.id] = pairing.dam_id
    for sign in session.scalars(select(MatingSign).order_by(col(MatingSign.seen_on))):
        dams[by_pairing[sign.pairing_id]].signs.append(sign)
    for found in session.scalars(select(PregnancyFinding).order_by(col(PregnancyFinding.found_on))):
        dams[found.dam_id].findings.append(found)
    for litter in session.scalars(select(Litter).order_by(col(Litter.born))):
        dams[litter.dam_id].births.append(litter)
    return {dam: record for dam, record in dams.items() if dam in herd.position}


def read_pairing_sires(session: Session) -> dict[int, list[int]]:
    """The males of every pairing, by pairing id."""
    males: dict[int, list[int]] = defaultdict(list)
    for row in session.scalars(select(PairingSire).order_by(col(PairingSire.id))):
        males[row.pairing_id].append(row.sire_id)
    return males


def _kept(pairing: Pairing | None) -> dict[str, Any]:
    return {"paired_from": pairing.started, "paired_to": pairing.ended} if pairing else {}


def _signs(signs: Iterable[MatingSign]) -> Iterable[Sign]:
    for sign in signs:
        if sign.kind == "bite marks":
            yield Sign(sign.seen_on, "bites")
        elif sign.kind == "copulation":
            yield Sign(sign.seen_on, "copulation")


def _checks(findings: Iterable[PregnancyFinding]) -> Iterable[Check]:
    for one in findings:
        if one.finding in _FINDING:
            yield Check(one.found_on, _FINDING[one.finding])  # type: ignore[arg-type]
