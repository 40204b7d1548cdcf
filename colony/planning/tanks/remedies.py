"""What would be enough when no arrangement keeps the limits: sell so many, or one more tank."""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil, sqrt

import numpy as np

from colony.planning.tanks.packing import SOLD
from colony.planning.tanks.placement import Answer, SolverEffort, place
from colony.planning.tanks.placement_problem import PlacementProblem
from colony.planning.tanks.search import MOST_PAIRS


@dataclass(frozen=True)
class ExtraTank:
    """An extra tank that would be enough, in mm, rounded up to whole centimetres."""

    length_mm: int
    width_mm: int


@dataclass(frozen=True)
class Remedy:
    """What would be enough when no arrangement is: either of the two.

    `sell` are tags whose sale by `by` makes room, `at_least` the fewest that could do; `tank`
    is one more tank, None where none was found that would do.
    """

    by: date
    sell: tuple[str, ...]
    at_least: int
    tank: ExtraTank | None


def extra_tank(problem: PlacementProblem, relief: Answer, effort: SolverEffort) -> ExtraTank | None:
    """Size a tank that would take what finds no place, or None if no single tank would.

    Small questions are answered with the smallest such tank, large ones with one for the
    animals that `relief` sells.
    """
    floors = [_smallest_floor(problem, effort), _floor_for_sold(problem, relief)]
    found = [floor for floor in floors if floor]
    if not found:
        return None
    limits = problem.week.limits
    ratio = limits.widths_along / limits.widths_across
    width = sqrt(min(found) / ratio)
    return ExtraTank(_up_to_cm(width * ratio), _up_to_cm(width))


def _smallest_floor(problem: PlacementProblem, effort: SolverEffort) -> float:
    if len(problem.free) * len(problem.week.tanks) > MOST_PAIRS:
        return 0.0
    return place(replace(problem, means="build", least=0, ahead=None), effort).floor_mm2


def _floor_for_sold(problem: PlacementProblem, relief: Answer) -> float:
    week = problem.week
    rows = problem.free[np.array(relief.tank, dtype=np.intp) == SOLD]
    if not len(rows) or any(week.clash(row, rows).any() for row in rows.tolist()):
        return 0.0
    limits = week.limits
    widest = float(week.large_mm[rows].max())
    by_load = float(week.disc_mm2[rows].sum()) / limits.load
    return max(by_load, limits.widths_across * limits.widths_along * widest**2)


def _up_to_cm(mm: float) -> int:
    return 10 * ceil(mm / 10 - 1e-6)
