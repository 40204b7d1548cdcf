"""Lay the water changes of a week on its days so that the reserve is never overdrawn.

Drips flow every day and come first. Urgent changes follow, rank by rank, as fast as the
limits of their tanks allow. Routine changes share what is left: as many litres as can be laid
at all (earliest deadline first, which lays the most where each litre has a window of days;
Glover 1967, Maximum matching in a convex bipartite graph, Nav. Res. Logist. Q. 14:313-316, from
memory), whole where that is possible, and spread until no single move makes a day quieter.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from colony.planning.reserve import Ledger, Reserve


@dataclass(frozen=True)
class Urgent:
    """A change that begins today: so many litres, at most so many a day; rank 1 goes first."""

    system: str
    litres: int
    most_l_a_day: int
    rank: int
    why: str = ""

    def wanted_by(self, day: int) -> int:
        """Litres that full speed would have laid by the end of a day (0 is today)."""
        return min(self.litres, self.most_l_a_day * (day + 1))


@dataclass(frozen=True)
class Routine:
    """One ordinary change of so many litres, on one day of a window (0 is today)."""

    system: str
    litres: int
    first_day: int
    last_day: int
    due_day: int


@dataclass(frozen=True)
class Draw:
    """Litres laid for a system on a day; `part` where a routine change had to be split."""

    day: int
    system: str
    litres: int
    urgent: bool
    why: str = ""
    part: bool = False


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


@dataclass(frozen=True)
class Demand:
    """Everything that wants water: litres that drip each day, urgent and routine changes."""

    drip_l_a_day: int
    urgent: tuple[Urgent, ...]
    routine: tuple[Routine, ...]


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
    ledger = Ledger(reserve, days)
    dripped = _lay_drips(ledger, demand.drip_l_a_day)
    urgent = _lay_urgent(ledger, demand.urgent)
    whole, split = _lay_routine(ledger, demand.routine)
    return _plan(ledger, demand, dripped, [*urgent, *whole, *split])


def fits(reserve: Reserve, demand: Demand, days: int = 7) -> bool:
    """Tell whether every day gets what it must have, without laying anything out."""
    ledger = Ledger(reserve, days)
    dripped = _lay_drips(ledger, demand.drip_l_a_day)
    urgent = _lay_urgent(ledger, demand.urgent)
    late = any(_urgent_late(demand.urgent, urgent, day) for day in range(days))
    short = sum(n.litres for n in demand.routine) > _laid(_by_deadline(ledger, demand.routine))
    return min(dripped) >= demand.drip_l_a_day and not late and not short


def _check(demand: Demand, days: int) -> None:
    taken = {one.system: set(range(days)) for one in demand.urgent}
    if len(taken) < len(demand.urgent):
        raise ValueError("a system has one urgent change, not two")
    for need in demand.routine:
        window = set(range(need.first_day, need.last_day + 1))
        if not window or not window <= set(range(days)):
            raise ValueError(f"the window of {need.system} is not within the {days} days")
        if window & taken.setdefault(need.system, set()):
            raise ValueError(f"two changes of {need.system} could fall on one day")
        taken[need.system] |= window


def _lay_drips(ledger: Ledger, litres_a_day: int) -> list[int]:
    dripped = []
    for day in range(len(ledger.drawn_l)):
        litres = min(litres_a_day, ledger.levels()[day])
        ledger.draw(day, litres)
        dripped.append(litres)
    return dripped


def _lay_urgent(ledger: Ledger, urgent: Sequence[Urgent]) -> list[Draw]:
    """Lay each rank before the next, a system after another, each as early as it can be."""
    draws = []
    for need in sorted(urgent, key=lambda one: one.rank):
        left = need.litres
        for day in range(len(ledger.drawn_l)):
            litres = min(left, need.most_l_a_day, ledger.room(day))
            if litres > 0:
                ledger.draw(day, litres)
                left -= litres
                draws.append(Draw(day, need.system, litres, urgent=True, why=need.why))
    return draws


def _lay_routine(ledger: Ledger, needs: Sequence[Routine]) -> tuple[list[Draw], list[Draw]]:
    """Lay routine changes whole where the most water can still be laid, else in parts."""
    most = _laid(_by_deadline(ledger, needs))
    waiting, whole = sorted(needs, key=lambda one: (-one.litres, one.last_day)), []
    for need in list(waiting):
        others = [one for one in waiting if one is not need]
        day = _best_day(ledger, need, others, most)
        if day is None:
            continue
        ledger.draw(day, need.litres)
        most -= need.litres
        waiting = others
        whole.append((need, day))
    parts = _by_deadline(ledger, waiting)
    for part in parts:
        ledger.draw(part.day, part.litres)
    return _level_out(ledger, whole), parts


def _best_day(
    ledger: Ledger, need: Routine, others: Sequence[Routine], most: int
) -> int | None:
    """The quietest day that takes a change whole and costs nobody else a litre."""
    for day in _quietest(ledger, need):
        if ledger.room(day) < need.litres:
            continue
        trial = ledger.copy()
        trial.draw(day, need.litres)
        if need.litres + _laid(_by_deadline(trial, others)) >= most:
            return day
    return None


def _quietest(ledger: Ledger, need: Routine) -> list[int]:
    window = range(need.first_day, need.last_day + 1)
    return sorted(window, key=lambda day: (ledger.drawn_l[day], abs(day - need.due_day), day))


def _by_deadline(ledger: Ledger, needs: Sequence[Routine]) -> list[Draw]:
    """Lay as many litres as can be: each day all there is, to whoever's window closes first."""
    trial, left = ledger.copy(), {id(need): need.litres for need in needs}
    draws = []
    for day in range(len(ledger.drawn_l)):
        for need in sorted(needs, key=lambda one: one.last_day):
            if not need.first_day <= day <= need.last_day:
                continue
            litres = min(left[id(need)], trial.room(day))
            if litres > 0:
                trial.draw(day, litres)
                left[id(need)] -= litres
                draws.append(Draw(day, need.system, litres, urgent=False, part=True))
    return draws


def _laid(draws: Sequence[Draw]) -> int:
    return sum(draw.litres for draw in draws)


def _level_out(ledger: Ledger, whole: Sequence[tuple[Routine, int]]) -> list[Draw]:
    """Move single changes to quieter days until no move makes the fuller of two days less full."""
    days = [day for _, day in whole]
    moved = True
    while moved:
        moved = False
        for at, (need, _) in enumerate(whole):
            quieter = _quieter_day(ledger, need, days[at])
            if quieter is not None:
                days[at], moved = quieter, True
    return [
        Draw(day, need.system, need.litres, urgent=False)
        for (need, _), day in zip(whole, days, strict=True)
    ]


def _quieter_day(ledger: Ledger, need: Routine, day: int) -> int | None:
    """Move a change to a quieter day in the ledger, if there is one that has the water."""
    ledger.draw(day, -need.litres)
    for other in _quietest(ledger, need):
        if ledger.drawn_l[other] >= ledger.drawn_l[day]:
            break
        if ledger.room(other) >= need.litres:
            ledger.draw(other, need.litres)
            return other
    ledger.draw(day, need.litres)
    return None


def _plan(
    ledger: Ledger, demand: Demand, dripped: Sequence[int], draws: Sequence[Draw]
) -> WaterPlan:
    mornings = ledger.levels()
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
        for day in range(len(ledger.drawn_l))
    )
    return WaterPlan(days, _short_by_system(demand, dripped, draws))


def _urgent_late(urgent: Sequence[Urgent], draws: Sequence[Draw], day: int) -> int:
    """Litres that full speed would have laid by the end of a day and the plan has not."""
    return sum(
        need.wanted_by(day)
        - sum(d.litres for d in draws if d.urgent and d.system == need.system and d.day <= day)
        for need in urgent
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
    for need in (*demand.urgent, *demand.routine):
        wanted[need.system] = wanted.get(need.system, 0) + need.litres
    for draw in draws:
        wanted[draw.system] -= draw.litres
    drip = demand.drip_l_a_day * len(dripped) - sum(dripped)
    return {name: litres for name, litres in {**wanted, "drip": drip}.items() if litres}
