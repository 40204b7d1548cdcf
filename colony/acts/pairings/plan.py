"""The best set of pairings for the whole colony, proposed; `plan_acceptance` accepts it."""

import time
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session

from colony.acts.pairings.plan_request import wishes_of_book
from colony.planning.pairings.comparison import Comparison, compare_plans
from colony.planning.pairings.future import Future, FutureDraw, futures
from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import Effort, Wishes
from colony.refusals.pairings import NothingToCompare
from colony.store.lookup import find_species
from colony.store.readers.pairings.stock import read_breeding_tanks, read_stock


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

    plan: ProposedPlan
    comparison: Comparison | None = None
    futures: tuple[Future, ...] = ()


def propose_plan(
    session: Session,
    *,
    asked: PlanAsked,
    compare: bool = False,
    draw: FutureDraw | None = None,
    today: date,
) -> Proposed:
    """Propose the best pairings; nothing is changed by it.

    Parameters
    ----------
    asked
        The wishes; names in them in any case.
    compare
        Also make the plan without the what-if (`must`, `must_not`, `without`) and put the two
        side by side.
    draw
        How to simulate the generations to come, beside chance and "least kin first"; or not.

    Raises
    ------
    NoSuchTag, NoSuchSpecies, NoSuchRule, NoSuchKind, KindTwice, NothingToCompare,
    CannotBePaired, PairsDoNotFit
    """
    wishes = wishes_of_book(session, asked.wishes)
    plainly = replace(wishes, must=frozenset(), must_not=frozenset(), without=frozenset())
    if compare and plainly == wishes:
        raise NothingToCompare
    stock = read_stock(
        session,
        species=find_species(session, asked.species).name if asked.species else None,
        named=frozenset(tag for pair in wishes.must for tag in pair),
        at_worst=wishes.at_worst,
        founders=bool(wishes.founder_weight),
        today=today,
    )
    tanks = read_breeding_tanks(session, stock, today) if asked.use_tanks else ()
    effort = Effort(seconds=asked.seconds, clock=time.monotonic)
    plan = plan_pairings(stock, wishes, tanks, today=today, effort=effort)
    proposed = Proposed(plan)
    if compare:
        plain = plan_pairings(stock, plainly, tanks, today=today, effort=effort)
        proposed = replace(proposed, comparison=compare_plans(plain, plan))
    if draw is not None:
        planned = [(pair.dam, pair.sire) for pair in plan.pairs]
        ahead = futures(stock, wishes, planned, tanks, today=today, draw=draw)
        proposed = replace(proposed, futures=ahead)
    return proposed
