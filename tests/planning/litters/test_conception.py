"""On which days a dam may have conceived."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.litters.conception import (
    UNSEEN_SHARE,
    Check,
    Evidence,
    Sign,
    conception_basis,
    conception_days,
    conception_span,
)

START = date(2024, 1, 10)


def after(days: int) -> date:
    """Count days from the first."""
    return START + timedelta(days=days)


signs = st.lists(
    st.builds(Sign, st.integers(0, 60).map(after), st.sampled_from(["bites", "copulation"])),
    max_size=4,
).map(tuple)
checks = st.lists(
    st.builds(
        Check,
        st.integers(0, 90).map(after),
        st.sampled_from(["gravid", "nothing seen", "false alarm", "aborted"]),
    ),
    max_size=3,
).map(tuple)
evidence = st.builds(
    Evidence,
    st.just("Alma"),
    signs,
    st.lists(
        st.tuples(st.integers(0, 30).map(after), st.none() | st.integers(20, 60).map(after)),
        max_size=3,
    ).map(tuple),
    st.booleans(),
    checks,
    st.none() | st.integers(0, 50).map(after),
)


@given(evidence)
def test_the_weights_are_a_distribution_and_the_span_is_theirs(seen: Evidence) -> None:
    """All days together weigh 1; first and last are those found without weights."""
    days = conception_days(seen, longest_days=180, today=after(90))
    span = conception_span(seen, longest_days=180, today=after(90))
    if days is None:
        assert span is None
        return
    assert sum(weight for _, weight in days.weighed()) == pytest.approx(1)
    assert span == (days.first, days.last)


@given(evidence)
def test_nothing_seen_at_a_check_changes_nothing(seen: Evidence) -> None:
    """A pregnant ray may show nothing: such a check is written down and never counted."""
    silent = Check(after(40), "nothing seen")
    more = Evidence(
        seen.dam, seen.signs, seen.kept, seen.paired, (*seen.checks, silent),
        seen.last_birth,
    )  # fmt: skip
    facts = {"longest_days": 180.0, "today": after(90)}
    assert conception_days(more, **facts) == conception_days(seen, **facts)  # type: ignore[arg-type]


def test_bites_leave_three_days_open_beside_the_unseen_ones_of_the_pairing() -> None:
    """Seen on day 5 of ten: days 2 to 5 share nine tenths, all eleven days the tenth left."""
    seen = Evidence("Alma", (Sign(after(5), "bites"),), ((START, after(10)),))
    days = conception_days(seen, longest_days=180, today=after(90))
    assert days is not None
    assert (days.first, days.last, days.state) == (after(2), after(5), "expected")
    by_day: dict[int, float] = {}
    for day, weight in days.weighed():
        by_day[day] = by_day.get(day, 0.0) + weight
    assert by_day[after(3).toordinal()] == pytest.approx(0.9 / 4 + UNSEEN_SHARE / 11)
    assert by_day[after(9).toordinal()] == pytest.approx(UNSEEN_SHARE / 11)
    assert conception_basis(seen, days) == f"bites seen, conceived {after(2)} to {after(5)}"
