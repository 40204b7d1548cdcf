"""Lay routine changes in their windows: as many litres as can be, whole, and spread."""

from collections.abc import Sequence

from colony.planning.solver.flow import SINK, SOURCE, Network
from colony.planning.water.demand import Draw, Routine
from colony.planning.water.reserve import ReserveBalance


def lay_routine(balance: ReserveBalance, needs: Sequence[Routine]) -> tuple[list[Draw], list[Draw]]:
    """Lay routine changes whole where the most water can still be laid, else in parts.

    Returns the whole ones and the parts; both are drawn in the balance.
    """
    most = laid_l(most_litres(balance, needs))
    waiting, whole = sorted(needs, key=lambda need: (-need.litres, need.last_day)), []
    for need in list(waiting):
        others = [other for other in waiting if other is not need]
        day = _best_day(balance, need, others, most)
        if day is None:
            continue
        balance.draw(day, need.litres)
        most -= need.litres
        waiting = others
        whole.append((need, day))
    parts = most_litres(balance, waiting)
    for part in parts:
        balance.draw(part.day, part.litres)
    return _level_out(balance, whole), parts


def _best_day(
    balance: ReserveBalance, need: Routine, others: Sequence[Routine], most: int
) -> int | None:
    """The quietest day that takes a change whole and costs nobody else a litre."""
    for day in _quietest(balance, need):
        if balance.room(day) < need.litres:
            continue
        trial = balance.copy()
        trial.draw(day, need.litres)
        if need.litres + laid_l(most_litres(trial, others)) >= most:
            return day
    return None


def _quietest(balance: ReserveBalance, need: Routine) -> list[int]:
    window = range(need.first_day, need.last_day + 1)
    return sorted(window, key=lambda day: (balance.drawn_l[day], abs(day - need.due_day), day))


def most_litres(balance: ReserveBalance, needs: Sequence[Routine]) -> list[Draw]:
    """Lay as many litres as can be laid besides what is drawn, a change in parts if it must be.

    A litre kept today may serve a later window, so this is a flow of water through the days.
    """
    network = _days_of(balance)
    network.fill()
    for at, need in enumerate(needs):
        network.join(("need", at), SINK, need.litres)
        for day in range(need.first_day, need.last_day + 1):
            network.join(("day", day), ("need", at), need.litres)
    network.fill()
    return [
        Draw(day, need.system, litres, urgent=False, part=True)
        for at, need in enumerate(needs)
        for day in range(need.first_day, need.last_day + 1)
        if (litres := network.flows(("day", day), ("need", at)))
    ]


def _days_of(balance: ReserveBalance) -> Network:
    """Water through the reserve: what a night brings, what is kept, and what is drawn already."""
    network, reserve = Network(), balance.reserve
    network.join(SOURCE, ("day", 0), reserve.level_l)
    days = len(balance.drawn_l)
    everything = reserve.level_l + reserve.refill_l * days
    for day in range(1, days):
        network.join(SOURCE, ("night", day), reserve.refill_l)
        network.join(("day", day - 1), ("night", day), everything)
        network.join(("night", day), ("day", day), reserve.capacity_l)
    for day, drawn in enumerate(balance.drawn_l):
        network.join(("day", day), ("drawn", day), drawn)
        network.join(("drawn", day), SINK, drawn)
    return network


def laid_l(draws: Sequence[Draw]) -> int:
    """Litres of all these draws."""
    return sum(draw.litres for draw in draws)


def _level_out(balance: ReserveBalance, whole: Sequence[tuple[Routine, int]]) -> list[Draw]:
    """Move single changes to quieter days until no move makes the fuller of two days less full."""
    days = [day for _, day in whole]
    moved = True
    while moved:
        moved = False
        for at, (need, _) in enumerate(whole):
            quieter = _quieter_day(balance, need, days[at])
            if quieter is not None:
                days[at], moved = quieter, True
    return [
        Draw(day, need.system, need.litres, urgent=False)
        for (need, _), day in zip(whole, days, strict=True)
    ]


def _quieter_day(balance: ReserveBalance, need: Routine, day: int) -> int | None:
    """Move a change to a quieter day in the balance, if there is one that has the water."""
    balance.draw(day, -need.litres)
    for other in _quietest(balance, need):
        if balance.drawn_l[other] >= balance.drawn_l[day]:
            break
        if balance.room(other) >= need.litres:
            balance.draw(other, need.litres)
            return other
    balance.draw(day, need.litres)
    return None
