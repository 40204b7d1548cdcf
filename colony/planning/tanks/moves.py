"""A week's plan of moves: every limit kept, fewest animals moved, litter-mates together.

Nothing moves by itself: a plan is a proposal, and accepting it makes a work list.
"""

from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from colony.planning.arrays import Index
from colony.planning.tanks.bounds import fewest_leaving, fewest_sold
from colony.planning.tanks.limits import breaks, why_isolation_breaks
from colony.planning.tanks.occupancy import occupant
from colony.planning.tanks.packing import SOLD
from colony.planning.tanks.placement import DEFAULT_EFFORT, Answer, SolverEffort
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.remedies import Remedy, extra_tank
from colony.planning.tanks.search import BestMoves, fewest_moves, fewest_sales
from colony.planning.tanks.week import HouseWeek


@dataclass(frozen=True)
class Move:
    """One animal to be moved, by a day, and why; `expected` says that it is not born yet."""

    tag: str
    from_tank: str
    to_tank: str
    by: date
    why: str
    litter: str = ""
    expected: bool = False


@dataclass(frozen=True)
class WeekPlan:
    """The moves of the week that begins on a day.

    `optimal` says that no plan moves fewer animals; else a better one saves at most the
    share `gap`. `splits` counts the tanks the litters of broken tanks are spread over, and
    `mates_proved` that so few moves could not spread them less. `impossible` says it is
    proved that no arrangement keeps the limits; `remedy` is then part of the plan.
    `stuck` says why tanks stay over a limit whoever is moved.
    """

    begins: date
    moves: tuple[Move, ...]
    optimal: bool
    gap: float
    splits: int = 0
    mates_proved: bool = False
    impossible: bool = False
    remedy: Remedy | None = None
    stuck: tuple[str, ...] = ()


def week_plan(
    week: HouseWeek, *, thorough: bool = True, effort: SolverEffort = DEFAULT_EFFORT
) -> WeekPlan:
    """Propose the moves that keep every limit on every day of a week.

    Parameters
    ----------
    week
        The animals and tanks of the week.
    thorough
        Also try animals of tanks that are in order when that may save moves, and prove how
        well litter-mates are kept together. A plan for a later week, which will be made
        again, can do without.
    effort
        How hard to try.
    """
    stuck = [t for t in week.broken().tolist() if not week.holds(t, _pinned_in(week, t))]
    plan = _plan(_forgiven(week, stuck), effort, thorough=thorough)
    return replace(plan, stuck=tuple(_why(week, t, _pinned_in(week, t)) for t in stuck))


def _plan(week: HouseWeek, effort: SolverEffort, *, thorough: bool) -> WeekPlan:
    broken = week.broken().tolist()
    free = np.flatnonzero(np.isin(week.home, broken) & ~week.pinned)
    if not len(free):
        return WeekPlan(week.begins, (), optimal=True, gap=0.0)
    least = sum(fewest_leaving(week, tank) for tank in broken)
    problem = PlacementProblem(week, free, least=least)
    cramped = fewest_sold(week)
    found = BestMoves(problem, Answer("impossible"), least, impossible=True)
    if not cramped:
        found = fewest_moves(problem, effort, thorough=thorough)
    if not found.answer.tank:
        return _relieved(found, effort, cramped)
    gap = max(found.answer.moves - found.bound, 0) / max(found.answer.moves, 1)
    return WeekPlan(
        week.begins,
        _moves(found.problem, found.answer),
        optimal=gap == 0,
        gap=gap,
        splits=found.answer.splits,
        mates_proved=found.mates_proved,
    )


def _relieved(failed: BestMoves, effort: SolverEffort, cramped: int) -> WeekPlan:
    """Plan the fewest sales, and the moves that go with them."""
    week = failed.problem.week
    relief = fewest_sales(failed.problem, effort)
    at_least = max(cramped, relief.bound, int(failed.impossible))
    rows = relief.problem.free[np.array(relief.answer.tank, dtype=np.intp) == SOLD]
    sold = tuple(week.swimmers[row].tag for row in rows.tolist())
    tank = extra_tank(relief.problem, relief.answer, effort)
    return WeekPlan(
        week.begins,
        _moves(relief.problem, relief.answer),
        optimal=bool(sold) and len(sold) <= at_least,
        gap=max(len(sold) - at_least, 0) / max(len(sold), 1),
        splits=relief.answer.splits,
        impossible=failed.impossible,
        remedy=Remedy(week.begins, sold, at_least, tank),
    )


def _moves(problem: PlacementProblem, answer: Answer) -> tuple[Move, ...]:
    week, found = problem.week, []
    reasons: dict[int, str] = {}
    for row, tank in zip(problem.free.tolist(), answer.tank, strict=False):
        home = int(week.home[row])
        if tank in {home, SOLD}:
            continue
        why = reasons.setdefault(home, _why(week, home, week.residents(home)))
        swimmer = week.swimmers[row]
        day = max(swimmer.arrives or week.begins, week.begins)
        found.append(
            Move(
                swimmer.tag,
                swimmer.tank,
                week.tanks[tank].code,
                day,
                why,
                swimmer.litter,
                expected=swimmer.arrives is not None,
            )
        )
    return tuple(sorted(found, key=lambda move: (move.from_tank, move.to_tank, move.tag)))


def _why(week: HouseWeek, tank: int, rows: Index) -> str:
    """Say what these animals break in a tank; making room for others breaks nothing."""
    pairs = [(week.swimmers[n], float(week.large_mm[n])) for n in rows.tolist()]
    occupants = [occupant(swimmer, width) for swimmer, width in pairs]
    reasons = breaks(week.tanks[tank], occupants, week.limits)
    unsafe = why_isolation_breaks(week.tanks[tank], occupants, week.begins)
    sentences = [reason.sentence for reason in (unsafe, *reasons) if reason]
    sentences += _growing_apart(week, tank, rows)
    return sentences[0] if sentences else f"makes room in {week.tanks[tank].code}"


def _growing_apart(week: HouseWeek, tank: int, rows: Index) -> list[str]:
    """Name two animals that are too unlike only between the week's first and last day."""
    for row in rows.tolist():
        narrow = [
            n for n in rows[week.clash(row, rows)].tolist() if week.large_mm[n] < week.large_mm[row]
        ]
        if narrow:
            wide, other = week.swimmers[row].tag, week.swimmers[narrow[0]].tag
            times, code = week.limits.size_spread, week.tanks[tank].code
            return [f"{wide} will be over {times:g} times as wide as {other} in {code} this week"]
    return []


def _pinned_in(week: HouseWeek, tank: int) -> Index:
    residents = week.residents(tank)
    return residents[week.pinned[residents]]


def _forgiven(week: HouseWeek, stuck: list[int]) -> HouseWeek:
    """Let pinned animals stay that break a limit by themselves: nobody else may join them."""
    capacity, home_closed, kin = week.capacity_mm2.copy(), week.home_closed.copy(), week.kin.copy()
    for tank in stuck:
        pinned = _pinned_in(week, tank)
        capacity[tank] = max(float(capacity[tank]), float(week.disc_mm2[pinned].sum()))
        home_closed[pinned] = False
        if not week.alike(pinned):
            kin[pinned] = kin[pinned[0]]
    return replace(week, capacity_mm2=capacity, home_closed=home_closed, kin=kin)
