"""Trends drawn in plain characters."""

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from colony.papers.growth.trends import HEIGHT, draw_trend

DAY = date(2025, 3, 10)


def test_values_stand_where_they_are() -> None:
    """The least at the bottom left, the most at the top right, the limit a dashed line between."""
    lines = draw_trend([(DAY, 0.0), (DAY + timedelta(days=9), 80.0)], high=40.0)
    assert lines[0].endswith("*")
    assert lines[HEIGHT - 1].index("*") == lines[HEIGHT - 1].index("|") + 1
    assert set(lines[HEIGHT // 2].split("|")[1]) == {"-"}
    assert [line.split("|")[0].strip() for line in (lines[0], lines[HEIGHT - 1])] == ["80", "0"]
    assert str(DAY) in lines[-1]


def test_nothing_is_drawn_of_nothing() -> None:
    """No value, no picture."""
    assert draw_trend([], low=6, high=8) == []


@settings(deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 900), st.floats(0, 2000)), min_size=1, max_size=40),
    st.none() | st.floats(0, 100),
)
def test_every_picture_fits_a_terminal_of_80_columns(
    values: list[tuple[int, float]], high: float | None
) -> None:
    """Whatever the values, no line is longer than 80, and some value is on it."""
    points = sorted((DAY + timedelta(days=day), value) for day, value in values)
    lines = draw_trend(points, high=high)
    assert max(map(len, lines)) <= 80
    assert sum(line.count("*") for line in lines) >= 1
