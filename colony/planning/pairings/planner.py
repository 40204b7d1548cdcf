"""The best set of pairings for the whole colony, with proof and reasons."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property

import numpy as np

from colony.planning.arrays import Index
from colony.planning.pairings.eligibility import FEMALE, MALE, set_aside, set_aside_alone
from colony.planning.pairings.left_out import left_out
from colony.planning.pairings.moves import planned_moves
from colony.planning.pairings.open_pairs import OPEN, OpenPairs, open_pairs
from colony.planning.pairings.plan import Group, PlannedPair, ProposedPlan
from colony.planning.pairings.request import (
    DEFAULT_EFFORT,
    BreedingTank,
    Deadline,
    Effort,
    PairingRequest,
    Stock,
)
from colony.planning.pairings.required import refuse_impossible, refuse_unfitting
from colony.planning.pairings.search.count import LitterCount, count_litters
from colony.planning.pairings.search.problem import PairingProblem, pairing_problem
from colony.planning.pairings.search.search import BestPairs, best_plan
from colony.planning.pairings.tanks import group_tanks

NO_PAIRS = np.zeros(0, dtype=np.intp)


def plan_pairings(
    stock: Stock,
    request: PairingRequest,
    tanks: Sequence[BreedingTank] = (),
    *,
    today: date,
    effort: Effort = DEFAULT_EFFORT,
) -> ProposedPlan:
    """Plan the pairings of a colony: first as many litters as are asked for, then the best.

    Parameters
    ----------
    stock
        The animals, their kinship, and where they are.
    request
        What the breeder asks for.
    tanks
        Tanks for breeding groups; without any, tanks set no limit.
    today
        The day of the plan.
    effort
        How hard to try.

    Raises
    ------
    CannotBePaired, PairsDoNotFit
        A required pair may not be, or not with the others.
    """
    deadline = Deadline(effort)
    pairs = open_pairs(stock, request, tanks, today)
    refuse_impossible(pairs)
    problem = pairing_problem(pairs)
    if not len(problem.required):
        return ProposedPlan(left_out=left_out(pairs, NO_PAIRS), notes=(_nobody(pairs),))
    counted = count_litters(problem, effort, deadline)
    refuse_unfitting(pairs, counted)
    if not counted.aim.litters:
        notes = tuple(_notes(pairs, NO_PAIRS, counted))
        return ProposedPlan(left_out=left_out(pairs, NO_PAIRS), notes=notes)
    found = best_plan(problem, counted, effort, deadline)
    solved = _Solved(problem, counted, found, hurried=deadline.is_over())
    return _plan(pairs, solved, today, effort)


@dataclass(frozen=True, eq=False)
class _Solved:
    problem: PairingProblem
    counted: LitterCount
    found: BestPairs
    hurried: bool

    @cached_property
    def tank_of(self) -> dict[int, int]:
        return group_tanks(self.problem, self.found.chosen)


def _plan(pairs: OpenPairs, solved: _Solved, today: date, effort: Effort) -> ProposedPlan:
    goal, found = solved.problem.objective, solved.found
    planned = tuple(sorted(_planned(pairs, solved, today), key=lambda pair: pair.dam))
    proved = found.gap <= effort.proof
    notes = list(_notes(pairs, found.chosen, solved.counted))
    if not proved:
        how = "best found in the time" if solved.hurried else "best found"
        notes.append(f"{how}: a better plan could be lower by {found.gap:.3%} at most")
    return ProposedPlan(
        pairs=planned,
        groups=_groups(planned),
        moves=planned_moves(pairs.stock, planned, pairs.request.overridden),
        left_out=left_out(pairs, found.chosen),
        mean_expected_inbreeding=float(np.mean([pair.expected_inbreeding for pair in planned])),
        next_mean_kinship=goal.next_mean_kinship(found.chosen),
        objective=goal.value(found.chosen),
        optimal=proved and solved.counted.proved,
        gap=found.gap,
        notes=tuple(notes),
    )


def _planned(pairs: OpenPairs, solved: _Solved, today: date) -> Iterator[PlannedPair]:
    stock, overridden = pairs.stock, pairs.request.overridden
    worst = stock.kinship if stock.worst_kinship is None else stock.worst_kinship
    numbers = (places[solved.found.chosen].tolist() for places in pairs.places)
    for dam_number, sire_number in zip(*numbers, strict=True):
        rows = pairs.dams[dam_number], pairs.sires[sire_number]
        dam, sire = (pairs.candidate(row) for row in rows)
        yield PlannedPair(
            dam=dam.tag,
            sire=sire.tag,
            expected_inbreeding=float(stock.kinship[rows]),
            worst_inbreeding=float(worst[rows]),
            tank=pairs.tanks[solved.tank_of[sire_number]].code if solved.tank_of else None,
            reasons=set_aside(sire, dam, today, overridden)
            + set_aside_alone(sire, today, overridden),
        )


def _groups(planned: Sequence[PlannedPair]) -> tuple[Group, ...]:
    dams, tanks = defaultdict(list), {}
    for pair in planned:
        dams[pair.sire].append(pair.dam)
        tanks[pair.sire] = pair.tank
    return tuple(Group(sire, tuple(dams[sire]), tanks[sire]) for sire in sorted(dams))


def _nobody(pairs: OpenPairs) -> str:
    """Say in one sentence why there is no pair at all."""
    for rows, sex, word in ((pairs.dams, FEMALE, "female"), (pairs.sires, MALE, "male")):
        if not len(rows):
            why = Counter(
                pairs.alone[animal.tag][0].name
                for animal in pairs.stock.animals
                if animal.sex == sex and animal.tag in pairs.alone
            )
            counts = ", ".join(f"{count} {name}" for name, count in why.most_common())
            return f"no pair can be made: no {word} may be paired ({counts or 'there is none'})"
    return "no pair can be made: nobody who may be paired suits another; the reasons are below"


def _notes(pairs: OpenPairs, chosen: Index, counted: LitterCount) -> Iterator[str]:
    """Answer what was asked for and cannot be."""
    made = len(chosen)
    if pairs.request.litters is not None and made < pairs.request.litters:
        yield f"litters: {pairs.request.litters} asked for, {made} can be"
    for (name, count), can in zip(
        pairs.request.wanted.items(), counted.aim.quota_least, strict=False
    ):
        if can < count:
            yield f"litters of {name}: {count} asked for, {can} can be"
    if not counted.proved:
        yield "it is not proved that there can be no more litters"
    least = float(pairs.f[pairs.bar == OPEN].min())
    if least > 0:
        yield f"every pair that is open is related: the least F is {least:.4f}"
