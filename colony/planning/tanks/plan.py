"""Moves for the weeks ahead: exact for the first, rolling after it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.tanks.limits import DEFAULT_LIMITS, Limits
from colony.planning.tanks.load import TankFloor
from colony.planning.tanks.moves import WeekPlan, week_plan
from colony.planning.tanks.occupancy import Swimmer
from colony.planning.tanks.placement import DEFAULT_EFFORT, SolverEffort
from colony.planning.tanks.week import house_week, moved

LATER = SolverEffort(seconds=1.0, nodes=2_000)
"""How hard to try for a week that will be planned again."""

HURRIED = SolverEffort(seconds=0.0, nodes=0)
"""Nothing is solved exactly for the weeks after the first that needs a remedy."""


@dataclass(frozen=True)
class HousingPlan:
    """A plan for every week of the horizon; each takes those before it as carried out."""

    weeks: tuple[WeekPlan, ...]

    @property
    def animals_moved(self) -> int:
        """Moves of all weeks together."""
        return sum(len(week.moves) for week in self.weeks)

    @property
    def first_impossible(self) -> WeekPlan | None:
        """The first week for which no arrangement was found."""
        return next((week for week in self.weeks if week.remedy), None)


def plan_moves(
    tanks: Sequence[TankFloor],
    swimmers: Sequence[Swimmer],
    limits: Limits = DEFAULT_LIMITS,
    *,
    today: date,
    weeks: int = 26,
) -> HousingPlan:
    """Plan the moves of the weeks to come.

    Parameters
    ----------
    tanks
        All tanks of the house.
    swimmers
        All animals in them, those to come included; who is in no known tank is left out.
    limits
        The limits of housing.
    today
        The first day of the first week.
    weeks
        How far to plan.

    Returns
    -------
    HousingPlan
        One plan a week. A week for which there is no arrangement says what would be enough,
        and the weeks after it take the sales it names as done.
    """
    plans: list[WeekPlan] = []
    effort = DEFAULT_EFFORT
    for number in range(weeks):
        week = house_week(tanks, swimmers, limits, begins=today + timedelta(weeks=number))
        plan = week_plan(week, thorough=number == 0, effort=effort)
        plans.append(plan)
        sold = set(plan.remedy.sell if plan.remedy else ())
        kept = [swimmer for swimmer in swimmers if swimmer.tag not in sold]
        swimmers = moved(kept, {move.tag: move.to_tank for move in plan.moves})
        effort = HURRIED if plan.remedy or effort == HURRIED else LATER
    return HousingPlan(tuple(plans))
