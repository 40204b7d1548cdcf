"""The best set of pairings for the whole colony, proposed; `plan_acceptance` accepts it."""

import time
from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session

from colony.acts.pairings.plan_request import request_of_book
from colony.planning.pairings.comparison import Comparison, compare_plans
from colony.planning.pairings.future import Future, FutureDraw, futures
from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import Effort, PairingRequest
from colony.refusals.pairings import NothingToCompare
from colony.store.readers.pairings.stock import read_breeding_tanks, read_stock


@dataclass(frozen=True)
class Proposed:
    """A plan, the plan without its what-if to compare it with, and what each way leads to."""

    plan: ProposedPlan
    comparison: Comparison | None = None
    futures: tuple[Future, ...] = ()


def propose_plan(
    session: Session,
    *,
    request: PairingRequest,
    compare: bool = False,
    draw: FutureDraw | None = None,
    today: date,
) -> Proposed:
    """Propose the best pairings; nothing is changed by it.

    Parameters
    ----------
    request
        What is asked for; names in it in any case.
    compare
        Also make the plan without the what-if (`PairingRequest.baseline`) and put the two side by
        side.
    draw
        How to simulate the generations to come, beside chance and "least kin first"; or not.

    Raises
    ------
    NoSuchTag, NoSuchSpecies, NoSuchRule, NoSuchKind, KindTwice, NothingToCompare,
    CannotBePaired, PairsDoNotFit
    """
    request = request_of_book(session, request)
    if compare and request.baseline == request:
        raise NothingToCompare
    stock = read_stock(
        session,
        species=request.species,
        named=frozenset(tag for pair in request.required_pairs for tag in pair),
        at_worst=request.at_worst,
        founders=bool(request.founder_weight),
        today=today,
    )
    tanks = read_breeding_tanks(session, stock, today) if request.use_tanks else ()
    effort = Effort(seconds=request.seconds, clock=time.monotonic)
    plan = plan_pairings(stock, request, tanks, today=today, effort=effort)
    proposed = Proposed(plan)
    if compare:
        plain = plan_pairings(stock, request.baseline, tanks, today=today, effort=effort)
        proposed = replace(proposed, comparison=compare_plans(plain, plan))
    if draw is not None:
        planned = [(pair.dam, pair.sire) for pair in plan.pairs]
        ahead = futures(stock, request, planned, tanks, today=today, draw=draw)
        proposed = replace(proposed, futures=ahead)
    return proposed
