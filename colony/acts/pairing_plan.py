"""The best set of pairings for the whole colony: proposed, looked at, and accepted."""

import time
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from sqlmodel import Session

from colony.acts.pairings import end_pairing, start_pairing
from colony.acts.work import PlannedMove, accept_moves
from colony.planning.eligibility import PAIR_RULES, RULES, Reason, unknown_rules
from colony.planning.pairing_comparison import Comparison, compare_plans
from colony.planning.pairing_future import Draw, Future, futures
from colony.planning.pairing_plan import Plan
from colony.planning.pairing_wishes import Effort, Wishes
from colony.planning.pairings import plan_pairings
from colony.refusals.pairings import NoSuchRule
from colony.store.journal import tell
from colony.store.lookup import find_animal, find_species
from colony.store.readers.stock import read_breeding_tanks, read_stock

MOVE_DAYS = 7
"""By when the moves of an accepted plan should be done; common practice, no source."""


@dataclass(frozen=True)
class PlanAsked:
    """What a plan is asked for: the wishes, of one species or all, with tanks or without."""

    wishes: Wishes
    species: str | None = None
    use_tanks: bool = False
    seconds: float = 60.0


@dataclass(frozen=True)
class Proposed:
    """A plan, the plan without its what-if to compare it with, and what each way leads to."""

    plan: Plan
    comparison: Comparison | None
    futures: tuple[Future, ...]

    def as_document(self) -> dict[str, Any]:
        """The plan as one document: pairs, figures, groups, moves, and who is left out."""
        plan = self.plan
        return {
            "pairs": [_pair(plan, number) for number in range(len(plan.pairs))],
            "mean_expected_inbreeding": plan.mean_expected_inbreeding,
            "next_mean_kinship": plan.next_mean_kinship,
            "next_gene_diversity": plan.next_gene_diversity,
            "objective": plan.objective,
            "optimal": plan.optimal,
            "gap": plan.gap,
            "groups": plan.groups,
            "moves": plan.moves,
            "notes": plan.notes,
            "left_out": [{"tag": one.tag, "reasons": told(one.reasons)} for one in plan.left_out],
            "comparison": self.comparison,
            "futures": [
                {"way": future.way, "generations": future.ahead} for future in self.futures
            ],
        }


def propose_plan(
    session: Session,
    *,
    asked: PlanAsked,
    compare: bool = False,
    draw: Draw | None = None,
    today: date,
) -> Proposed:
    """Propose the best pairings; nothing is changed by it.

    Parameters
    ----------
    compare
        Also make the plan without the what-if (`must`, `without`) and put the two side by side.
    draw
        How to simulate the generations to come, beside chance and "least kin first"; or not.

    Raises
    ------
    NoSuchTag, NoSuchSpecies, NoSuchRule, CannotBePaired, PairsDoNotFit
    """
    wishes = _checked(session, asked.wishes)
    species = find_species(session, asked.species).name if asked.species else None
    stock = read_stock(
        session,
        species=species,
        at_worst=wishes.at_worst,
        founders=bool(wishes.founder_weight),
        today=today,
    )
    tanks = read_breeding_tanks(session, stock, today) if asked.use_tanks else ()
    effort = Effort(seconds=asked.seconds, clock=time.monotonic)
    plan = plan_pairings(stock, wishes, tanks, today=today, effort=effort)
    comparison = None
    if compare:
        plainly = replace(wishes, must=frozenset(), without=frozenset())
        plain = plan_pairings(stock, plainly, tanks, today=today, effort=effort)
        comparison = compare_plans(plain, plan)
    ahead: tuple[Future, ...] = ()
    if draw is not None:
        planned = [(pair.dam, pair.sire) for pair in plan.pairs]
        ahead = futures(stock, wishes, planned, tanks, today=today, draw=draw)
    return Proposed(plan, comparison, ahead)


def accept_plan(session: Session, *, plan: Plan, on: date, today: date) -> int:
    """Start the pairings of a plan, and put its moves on the work list; the pairs started.

    A running pairing that the plan breaks is ended on the same day.

    Raises
    ------
    What `start_pairing` refuses
    """
    for pair in plan.pairs:
        if any(reason.name == "paired" for reason in pair.reasons):
            end_pairing(session, dam=pair.dam, on=on, today=today)
        start_pairing(session, dam=pair.dam, sires=[pair.sire], on=on, tank=pair.tank, today=today)
    by = today + timedelta(days=MOVE_DAYS)
    moves = [
        PlannedMove(move.tag, move.to_tank, by, "pairing plan")
        for move in plan.moves
        if move.to_tank is not None
    ]
    accept_moves(session, moves=moves, today=today)
    tell(session, f"a plan of {len(plan.pairs)} pairings was accepted")
    return len(plan.pairs)


def told(reasons: Sequence[Reason]) -> list[str]:
    """Reasons as ``rule: why``."""
    return [f"{reason.name}: {reason.text}" for reason in reasons]


def _pair(plan: Plan, number: int) -> dict[str, Any]:
    pair = plan.pairs[number]
    return {
        "dam": pair.dam,
        "sire": pair.sire,
        "expected_inbreeding": pair.expected_inbreeding,
        "worst_inbreeding": pair.worst_inbreeding,
        "tank": pair.tank,
        "reasons": told(pair.reasons),
    }


def _checked(session: Session, wishes: Wishes) -> Wishes:
    """The wishes with every tag as the book writes it."""
    if unknown := unknown_rules(wishes.overridden):
        raise NoSuchRule(unknown[0], [*RULES, *PAIR_RULES])

    def tag(written: str) -> str:
        return find_animal(session, written).tag

    return replace(
        wishes,
        must=frozenset((tag(dam), tag(sire)) for dam, sire in wishes.must),
        must_not=frozenset((tag(dam), tag(sire)) for dam, sire in wishes.must_not),
        without=frozenset(tag(one) for one in wishes.without),
    )
