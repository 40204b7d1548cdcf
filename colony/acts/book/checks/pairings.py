"""Pairings that run although something stands against them, and why the breeder has it so."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.book.checks.finding import Finding
from colony.planning.guards.judge import Objection, Proposal, judge_alone, judge_pair, refused
from colony.planning.guards.table import PAIR
from colony.records import Overruling, Pairing, PairingSire
from colony.refusals.base import Refusal, act
from colony.store.readers.animals.guarded import read_guarded, read_kin, read_limits
from colony.store.readers.pedigree import read_lineage

Overruled = Mapping[tuple[int, str], str]
"""Why a guard was overruled, by the animal and the guard."""


def nothing_stands_against(session: Session, today: date) -> Iterator[Finding]:
    """No pairing that runs is one that would be refused today; or the reason is kept."""
    try:
        yield from list(_found(session, today))
    except Refusal:
        # A pedigree or a setting that cannot be: another check names it.
        return


def _found(session: Session, today: date) -> Iterator[Finding]:
    running = _running(session)
    if not running:
        return
    lineage, limits = read_lineage(session), read_limits(session)
    everybody = running.keys() | {sire for sires in running.values() for sire in sires}
    guarded = read_guarded(session, everybody, today, lineage.herd)
    overruled, tag = _overruled(session), lineage.parents.tag
    proposal = Proposal(PAIR, today)
    for dam, sires in running.items():
        pairs = zip(sires, read_kin(lineage, dam, sires), strict=True)
        found: list[tuple[tuple[int, ...], Objection]] = [
            ((animal,), each)
            for animal in (dam, *sires)
            for each in judge_alone(proposal, guarded[animal], limits)
        ]
        found += [
            ((dam, sire), each)
            for sire, kin in pairs
            for each in judge_pair(guarded[dam], guarded[sire], kin, limits)
        ]
        for animals, objection in found:
            if refused((objection,)):
                reasons = [overruled.get((animal, objection.guard)) for animal in animals]
                yield Finding(
                    "pairing",
                    False,
                    tag(dam) or "",
                    f"is paired, and {objection.sentence}",
                    (act("pairing end", tag(dam) or ""),),
                    accepted=next(filter(None, reasons), ""),
                )


def _running(session: Session) -> dict[int, list[int]]:
    """The sires of each dam in a pairing that has not ended."""
    query = (
        select(Pairing.dam_id, PairingSire.sire_id)
        .join(PairingSire, col(PairingSire.pairing_id) == col(Pairing.id))
        .where(col(Pairing.ended).is_(None))
        .order_by(col(Pairing.dam_id), col(PairingSire.id))
    )
    running: dict[int, list[int]] = defaultdict(list)
    for dam, sire in session.exec(query):
        running[dam].append(sire)
    return running


def _overruled(session: Session) -> Overruled:
    return {
        (animal, row.guard): row.why
        for row in session.exec(select(Overruling).where(Overruling.act == PAIR))
        for animal in (row.animal_id, row.other_id)
        if animal is not None
    }
