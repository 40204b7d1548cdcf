"""Lay the water changes of a week on its days so that the reserve is never overdrawn.

Drips flow every day and come first. Urgent changes follow, rank by rank, as fast as the
limits of their tanks allow. Routine changes share what is left: as many litres as can be laid
at all, whole where that is possible, and spread until no single move makes a day quieter.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from colony.planning.water.demand import Demand, Draw, Routine, Urgent
from colony.planning.water.reserve import Reserve, ReserveBalance
from colony.planning.water.routine import laid_l, lay_routine, most_litres


@dataclass(frozen=True)
class PlannedDay:
    """One day: the reserve in the morning, what is drawn, and what was wanted and is short."""

    day: int
    level_l: int
    drip_l: int
    draws: tuple[Draw, ...]
    short_l: int

    @property
    def drawn_l(self) -> int:
        """Everything that leaves the reserve that day."""
        return self.drip_l + sum(draw.litres for draw in self.draws)


@dataclass(frozen=True)
class WaterPlan:
    """The days in order, and the litres by system that cannot be laid in them at all."""

    days: tuple[PlannedDay, ...]
    short_l: dict[str, int]

    @property
    def fits(self) -> bool:
        """Whether every day has what it must have."""
        return not any(day.short_l for day in self.days)


def plan_water(reserve: Reserve, demand: Demand, days: int = 7) -> WaterPlan:
    """Lay the demand on the days.

    Parameters
    ----------
    demand
        Each routine window lies within the days; no two windows of a system, and no window
        and urgent change of it, may meet, so that a system is changed at most once a day.

    Raises
    ------
    ValueError
        Windows of one system meet, or one lies outside the days.
    """
    _check(demand, days)
    balance = ReserveBalance(reserve, days)
    dripped = _lay_drips(balance, demand.drip_l_a_day)
    urgent = _lay_urgent(balance, demand.urgent)
    whole, split = lay_routine(balance, demand.routine)
    return _plan(balance, demand, dripped, [*urgent, *whole, *split])


def fits(reserve: Reserve, demand: Demand, days: int = 7) -> bool:
    """Tell whether every day gets what it must have, without laying anything out."""
    balance = ReserveBalance(reserve, days)
    dripped = _lay_drips(balance, demand.drip_l_a_day)
    urgent = _lay_urgent(balance, demand.urgent)
    late = any(_urgent_late(demand.urgent, urgent, day) for day in range(days))
    short = sum(n.litres for n in demand.routine) > laid_l(most_litres(balance, demand.routine))
    return min(dripped) >= demand.drip_l_a_day and not late and not short


def _check(demand: Demand, days: int) -> None:
    used = {need.system: set(need.days(days)) for need in demand.urgent}
    if len(used) < len(demand.urgent):
        raise ValueError("a system has one urgent change, not two")
    for need in demand.routine:
        window = set(range(need.first_day, need.last_day + 1))
        if not window or not window <= set(range(days)):
            raise ValueError(f"the window of {need.system} is not within the {days} days")
        if window & used.setdefault(need.system, set()):
            raise ValueError(f"two changes of {need.system} could fall on one day")
        used[need.system] |= window


def _lay_drips(balance: ReserveBalance, litres_a_day: int) -> list[int]:
    dripped = []
    for day in range(len(balance.drawn_l)):
        litres = min(litres_a_day, balance.levels()[day])
        balance.draw(day, litres)
        dripped.append(litres)
    return dripped


def _lay_urgent(balance: ReserveBalance, urgent: Sequence[Urgent]) -> list[Draw]:
    """Lay each rank before the next, a system after another, each as early as it can be."""
    draws = []
    for need in sorted(urgent, key=lambda need: need.rank):
        left = need.litres
        for day in need.days(len(balance.drawn_l)):
            litres = min(left, need.most_l_a_day, balance.room(day))
            if litres > 0:
                balance.draw(day, litres)
                left -= litres
                draws.append(Draw(day, need.system, litres, urgent=True, why=need.why))
    return draws


def _plan(
    balance: ReserveBalance, demand: Demand, dripped: Sequence[int], draws: Sequence[Draw]
) -> WaterPlan:
    mornings = balance.levels()
    days = tuple(
        PlannedDay(
            day=day,
            level_l=mornings[day],
            drip_l=dripped[day],
            draws=tuple(draw for draw in draws if draw.day == day),
            short_l=demand.drip_l_a_day
            - dripped[day]
            + _urgent_late(demand.urgent, draws, day)
            + _routine_missed(demand.routine, draws, day),
        )
        for day in range(len(balance.drawn_l))
    )
    return WaterPlan(days, _short_by_system(demand, dripped, draws))


def _urgent_late(urgent: Sequence[Urgent], draws: Sequence[Draw], day: int) -> int:
    """Litres that full speed would have laid by the end of a day and the plan has not."""
    return sum(
        need.wanted_by(day)
        - sum(d.litres for d in draws if d.urgent and d.system == need.system and d.day <= day)
        for need in urgent
        if need.last_day is None or day <= need.last_day
    )


def _routine_missed(needs: Sequence[Routine], draws: Sequence[Draw], day: int) -> int:
    return sum(need.litres - _laid_for(need, draws) for need in needs if need.last_day == day)


def _laid_for(need: Routine, draws: Sequence[Draw]) -> int:
    window = range(need.first_day, need.last_day + 1)
    return sum(
        d.litres for d in draws if not d.urgent and d.system == need.system and d.day in window
    )


def _short_by_system(
    demand: Demand, dripped: Sequence[int], draws: Sequence[Draw]
) -> dict[str, int]:
    wanted: dict[str, int] = {}
    for need in demand.changes:
        wanted[need.system] = wanted.get(need.system, 0) + need.litres
    for draw in draws:
        wanted[draw.system] -= draw.litres
    drip = demand.drip_l_a_day * len(dripped) - sum(dripped)
    return {name: litres for name, litres in {**wanted, "drip": drip}.items() if litres}
