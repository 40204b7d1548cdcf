"""What would be enough when no arrangement keeps the limits: sell so many, or one more tank."""

from dataclasses import dataclass, replace
from datetime import date
from math import ceil, sqrt

import numpy as np

from colony.planning.packing import SOLD
from colony.planning.placement import Answer, Effort, place
from colony.planning.placement_rows import Question
from colony.planning.search import MOST_PAIRS


@dataclass(frozen=True)
class TankSize:
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
    tank: TankSize | None


def extra_tank(question: Question, relief: Answer, effort: Effort) -> TankSize | None:
    """Size a tank that would take what finds no place, or None if no single tank would.

    Small questions are answered with the smallest such tank, large ones with one for the
    animals that `relief` sells.
    """
    floors = [_smallest_floor(question, effort), _floor_for_sold(question, relief)]
    found = [floor for floor in floors if floor]
    return _shaped(min(found), question) if found else None


def _smallest_floor(question: Question, effort: Effort) -> float:
    if len(question.free) * len(question.scene.tanks) > MOST_PAIRS:
        return 0.0
    return place(replace(question, wish="build", least=0, ahead=None), effort).floor_mm2


def _floor_for_sold(question: Question, relief: Answer) -> float:
    week = question.scene
    rows = question.free[np.array(relief.tank, dtype=np.intp) == SOLD]
    if not len(rows) or any(week.clash(row, rows).any() for row in rows.tolist()):
        return 0.0
    limits = week.limits
    widest = float(week.large_mm[rows].max())
    by_load = float(week.disc_mm2[rows].sum()) / limits.load
    return max(by_load, limits.widths_across * limits.widths_along * widest**2)


def _shaped(floor_mm2: float, question: Question) -> TankSize:
    limits = question.scene.limits
    ratio = limits.widths_along / limits.widths_across
    width = sqrt(floor_mm2 / ratio)
    return TankSize(_up_to_cm(width * ratio), _up_to_cm(width))


def _up_to_cm(mm: float) -> int:
    return 10 * ceil(mm / 10 - 1e-6)
