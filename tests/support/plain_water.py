"""Invented weeks of water, and what a plan makes of them."""

from hypothesis import strategies as st

from colony.planning.water.demand import Demand, Draw, Routine, Urgent
from colony.planning.water.plan import WaterPlan
from colony.planning.water.reserve import Reserve

WEEK = 7


def routine(system: str, litres: int, first: int = 0, last: int = WEEK - 1) -> Routine:
    """A change in a window, due on its last day."""
    return Routine(system, litres, first, last, last)


def demand(*needs: Urgent | Routine, drip: int = 0) -> Demand:
    """What wants water, urgent or not."""
    return Demand(
        drip,
        tuple(need for need in needs if isinstance(need, Urgent)),
        tuple(need for need in needs if isinstance(need, Routine)),
    )


def drawn(plan: WaterPlan) -> list[int]:
    """Litres drawn on each day."""
    return [day.drawn_l for day in plan.days]


def laid(plan: WaterPlan) -> list[Draw]:
    """Every change of the plan."""
    return [draw for day in plan.days for draw in day.draws]


nearly_short = st.builds(
    lambda capacity, missing, empty: Reserve(
        capacity, max(0, capacity - missing), empty % capacity
    ),
    st.integers(2, 60),
    st.integers(0, 20),
    st.integers(0, 60),
)


big_reserves = nearly_short | st.builds(
    lambda capacity, refill, share: Reserve(capacity, refill, int(capacity * share)),
    st.integers(0, 3000),
    st.integers(0, 1000),
    st.floats(0, 1),
)


windows = st.tuples(st.integers(0, 6), st.integers(0, 6)).map(sorted)
weeks = st.builds(
    lambda needs, drip: Demand(
        drip,
        (),
        tuple(routine(f"S{n}", size, *window) for n, (size, window) in enumerate(needs)),
    ),
    st.lists(st.tuples(st.integers(1, 40) | st.integers(1, 1500), windows), max_size=8),
    st.integers(0, 50) | st.integers(0, 200),
)


any_demands = st.builds(
    lambda week, urgent: Demand(
        week.drip_l_a_day,
        tuple(
            Urgent(f"U{n}", size, most, rank, last_day=last)
            for n, (size, most, rank, last) in enumerate(urgent)
        ),
        week.routine,
    ),
    weeks,
    st.lists(
        st.tuples(
            st.integers(1, 2000),
            st.integers(1, 800),
            st.integers(1, 3),
            st.none() | st.integers(0, 6),
        ),
        max_size=3,
    ),
)
