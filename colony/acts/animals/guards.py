"""Ask the guards before an act; keep why the breeder overruled one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.planning.guards.judge import (
    Objection,
    Proposal,
    Target,
    judge_alone,
    judge_pair,
    refused,
    warned,
)
from colony.planning.guards.table import NEVER, PAIR
from colony.records import Animal, Overruling
from colony.refusals.animals import AnywayNeedsWhy, HardlyMeant, StandsAgainst
from colony.store.journal.journal import tell
from colony.store.readers.animals.guarded import read_guarded, read_kin, read_limits
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.readers.tanks.house import TankRow


@dataclass(frozen=True)
class Decision:
    """What the breeder says to what stands against an act."""

    anyway: bool = False
    why: str | None = None


def target_of(tank: TankRow) -> Target:
    """A tank as the guards see it."""
    return Target(
        tank.plan.code, isolates=tank.plan.isolates, is_nursery=tank.plan.role == "nursery"
    )


def guard(
    session: Session, proposal: Proposal, animals: Sequence[Animal], decision: Decision
) -> tuple[str, ...]:
    """Ask whether an act with some animals may be; all that was said, in sentences.

    Raises
    ------
    StandsAgainst, AnywayNeedsWhy
    """
    ids = {animal.tag: animal.id or 0 for animal in animals}
    return overrule(session, against(session, proposal, animals), proposal, decision, ids)


def against(
    session: Session, proposal: Proposal, animals: Sequence[Animal]
) -> tuple[Objection, ...]:
    """What stands against an act with some animals, each by itself."""
    ids = [animal.id or 0 for animal in animals]
    limits, guarded = read_limits(session), read_guarded(session, ids, proposal.on)
    return tuple(
        objection
        for animal_id in ids
        for objection in judge_alone(proposal, guarded[animal_id], limits)
    )


def against_pairing(
    session: Session, dam: Animal, sires: Sequence[Animal], *, on: date
) -> tuple[tuple[Objection, ...], Lineage]:
    """What stands against a pairing, and the lineage that was read for it."""
    lineage, limits = read_lineage(session), read_limits(session)
    mother, males = dam.id or 0, [sire.id or 0 for sire in sires]
    guarded = read_guarded(session, [mother, *males], on, lineage.herd)
    alone = [judge_alone(Proposal(PAIR, on), guarded[each], limits) for each in (mother, *males)]
    kin = zip(males, read_kin(lineage, mother, males), strict=True)
    pairs = [judge_pair(guarded[mother], guarded[male], shared, limits) for male, shared in kin]
    return tuple(objection for each in (*alone, *pairs) for objection in each), lineage


def overrule(
    session: Session,
    objections: Sequence[Objection],
    proposal: Proposal,
    decision: Decision,
    ids: Mapping[str, int],
) -> tuple[str, ...]:
    """Refuse what stands against an act, or keep why it is done anyway; all that was said.

    Parameters
    ----------
    ids
        The animals that objections name, by tag.

    Raises
    ------
    StandsAgainst
        Something does, and it is not overruled, or cannot be.
    AnywayNeedsWhy
        It is to be overruled without a reason.
    """
    found = tuple(objections)
    barring = refused(found)
    never = [each.sentence for each in barring if each.weight == NEVER]
    if never:
        raise StandsAgainst(never, for_good=True)
    sentences = [each.sentence for each in barring]
    if barring and not decision.anyway:
        raise StandsAgainst(sentences)
    if barring and not decision.why:
        raise AnywayNeedsWhy(sentences)
    for each in barring:
        first, *others = (ids[tag] for tag in each.tags)
        session.add(
            Overruling(
                animal_id=first,
                other_id=next(iter(others), None),
                act=proposal.act,
                guard=each.guard,
                what=each.why,
                why=decision.why or "",
                decided_on=proposal.on,
            )
        )
    if barring:
        session.flush()
        tell(session, f"although {'; '.join(each.kept for each in barring)}", beside=True)
    return (*sentences, *(each.sentence for each in warned(found)))


def refuse_doubts(doubts: Sequence[str], *, anyway: bool) -> tuple[str, ...]:
    """Ask about what can hardly be meant; what was said, where it is written anyway.

    Raises
    ------
    HardlyMeant
    """
    if doubts and not anyway:
        raise HardlyMeant(doubts)
    return tuple(f"{doubt}." for doubt in doubts)
