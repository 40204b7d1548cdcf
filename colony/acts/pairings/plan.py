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
from colony.planning.pairings.request import UNWATCHED, Effort, PairingRequest, Watch
from colony.refusals.pairings import NothingToCompare
from colony.store.readers.animals.guarded import unknown_parents
from colony.store.readers.pairings.stock import read_breeding_tanks, read_stock
from colony.store.readers.pedigree import read_lineage


@dataclass(frozen=True)
class Proposed:
    """A plan, the plan without its what-if to compare it with, and what each way leads to.

    `unknown_kin` are those of its pairs of whom a parent is not on record.
    """

    plan: ProposedPlan
    comparison: Comparison | None = None
    futures: tuple[Future, ...] = ()
    unknown_kin: tuple[str, ...] = ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What the plan has to say beside its figures."""
        if not self.unknown_kin:
            return tuple(self.plan.notes)
        who = ", ".join(self.unknown_kin)
        note = f"{who}: a parent is not on record; kin that nobody wrote down is reckoned as none."
        return (*self.plan.notes, note)


def propose_plan(
    session: Session,
    *,
    request: PairingRequest,
    compare: bool = False,
    draw: FutureDraw | None = None,
    watch: Watch = UNWATCHED,
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
    watch
        Who is told how near the best plan is, and may stop the search for it.

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
    effort = Effort(seconds=request.seconds, clock=time.monotonic, watch=watch)
    plan = plan_pairings(stock, request, tanks, today=today, effort=effort)
    proposed = Proposed(plan, unknown_kin=_unknown_kin(session, plan))
    if compare:
        plain = plan_pairings(stock, request.baseline, tanks, today=today, effort=effort)
        proposed = replace(proposed, comparison=compare_plans(plain, plan))
    if draw is not None:
        planned = [(pair.dam, pair.sire) for pair in plan.pairs]
        ahead = futures(stock, request, planned, tanks, today=today, draw=draw)
        proposed = replace(proposed, futures=ahead)
    return proposed


def _unknown_kin(session: Session, plan: ProposedPlan) -> tuple[str, ...]:
    """Those of the pairs of whom a parent is not on record."""
    tags = list(dict.fromkeys(tag for pair in plan.pairs for tag in (pair.dam, pair.sire)))
    lineage = read_lineage(session)
    ids = {row.tag: row.id for row in lineage.herd.rows}
    return tuple(unknown_parents(lineage, [ids[tag] for tag in tags]))
