"""Routine changes: a maximum flow, whole where they can be, and spread."""

import networkx as nx
from hypothesis import example, given, settings
from hypothesis import strategies as st
from plain_water import WEEK, big_reserves, demand, drawn, laid, routine, weeks

from colony.planning.water.demand import Demand
from colony.planning.water.plan import plan_water
from colony.planning.water.reserve import Reserve, ReserveBalance


def test_a_quiet_week_is_spread_and_whole() -> None:
    """Seven equal changes that may fall on any day fall on one day each."""
    week = demand(*(routine(f"S{n}", 100) for n in range(7)))
    plan = plan_water(Reserve(1000, 1000, 1000), week)
    assert drawn(plan) == [100] * 7
    assert not any(draw.part for draw in laid(plan))
    assert plan.fits


def test_a_change_is_split_only_where_no_day_can_take_it_whole() -> None:
    """150 L from a reserve of 100 L go on two days; nothing is short."""
    plan = plan_water(Reserve(100, 100, 100), demand(routine("S1", 150)))
    assert sum(draw.litres for draw in laid(plan)) == 150
    assert all(draw.part for draw in laid(plan))
    assert plan.fits


litres = st.integers(1, 6)


def most_by_flow(reserve: Reserve, week: Demand, days: int) -> int:
    """The most water that can reach drips and routine changes: a maximum flow (networkx)."""
    graph = nx.DiGraph()
    for day in range(days):
        morning, evening = ("morning", day), ("evening", day)
        graph.add_edge(morning, evening)
        graph.add_edge(evening, ("drip", day), capacity=week.drip_l_a_day)
        graph.add_edge(("drip", day), "out", capacity=week.drip_l_a_day)
        if day:
            graph.add_edge(("night", day), morning, capacity=reserve.capacity_l)
            graph.add_edge("in", ("night", day), capacity=reserve.refill_l)
            graph.add_edge(("evening", day - 1), ("night", day))
        for need in week.routine:
            if need.first_day <= day <= need.last_day:
                graph.add_edge(evening, need, capacity=need.litres)
    for need in week.routine:
        graph.add_edge(need, "out", capacity=need.litres)
    graph.add_edge("in", ("morning", 0), capacity=reserve.level_l)
    return int(nx.maximum_flow_value(graph, "in", "out"))


KEEP_A_LITRE = demand(
    routine("S0", 1, 0, 2), routine("S1", 1, 0, 3), routine("S2", 4, 2, 2), drip=36
)
"""Who can wait has to: S1 gives the second day's litre to the third, when S2 wants four."""


@settings(max_examples=200, deadline=None)
@example(Reserve(39, 38, 0), KEEP_A_LITRE)
@given(big_reserves, weeks)
def test_a_week_without_urgency_lays_a_maximum_flow(reserve: Reserve, week: Demand) -> None:
    """Drips and routine changes together get as much as networkx' maximum flow."""
    plan = plan_water(reserve, week)
    assert sum(drawn(plan)) == most_by_flow(reserve, week, WEEK)


@settings(max_examples=60, deadline=None)
@given(big_reserves, weeks)
def test_no_single_move_would_spread_the_week_better(reserve: Reserve, week: Demand) -> None:
    """No whole change could go to another day of its window that is quieter without it."""
    plan = plan_water(reserve, week)
    ledger = ReserveBalance(reserve, WEEK)
    for day, out in enumerate(drawn(plan)):
        ledger.draw(day, out)
    windows = {need.system: need for need in week.routine}
    for one in laid(plan):
        if one.part:
            continue
        need = windows[one.system]
        ledger.draw(one.day, -one.litres)
        for other in range(need.first_day, need.last_day + 1):
            quieter = ledger.drawn_l[other] < ledger.drawn_l[one.day]
            assert not (quieter and ledger.room(other) >= one.litres)
        ledger.draw(one.day, one.litres)
