"""Turnbull's estimate against a published example, the reference ways and the most likely shares."""

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, minimize
from scipy.stats import CensoredData, ecdf

from colony.planning.arrays import Floats
from colony.planning.health.turnbull import alive_at, innermost, turnbull

COSMESIS: list[tuple[int, int | None]] = [
    *((45, None), (25, 37), (37, None), (6, 10), (46, None), (0, 5), (0, 7), (26, 40)),
    *((18, None), (46, None), (46, None), (24, None), (46, None), (27, 34), (36, None)),
    *((7, 16), (36, 44), (5, 11), (17, None), (46, None), (19, 35), (7, 14), (36, 48)),
    *((17, 25), (37, 44), (37, None), (24, None), (0, 8), (40, None), (32, None), (4, 11)),
    *((17, 25), (33, None), (15, None), (46, None), (19, 26), (11, 15), (11, 18), (37, None)),
    *((22, None), (38, None), (34, None), (46, None), (5, 12), (36, None), (46, None)),
]
"""Months to deterioration of 46 patients after radiotherapy alone: Finkelstein & Wolfe 1985, A
semiparametric model for regression analysis of interval-censored failure time data, Biometrics
41:933-945 (from memory, and held to the table below)."""

PUBLISHED = [
    *((4, 5, 0.0463), (6, 7, 0.0334), (7, 8, 0.0887), (11, 12, 0.0708)),
    *((24, 25, 0.0926), (33, 34, 0.0818), (38, 40, 0.1209), (46, 48, 0.4656)),
]
"""Their estimate as Fay & Shaw 2010, Exact and asymptotic weighted logrank tests for interval
censored data: the interval R package, J. Stat. Softw. 36(2), prints it (from memory)."""


def test_the_estimate_is_the_published_one() -> None:
    """Eight intervals hold all of it, to the four digits that were printed."""
    found = [one for one in turnbull(COSMESIS) if one[2] > 1e-6]
    assert [one[:2] for one in found] == [one[:2] for one in PUBLISHED]
    assert [one[2] for one in found] == pytest.approx([one[2] for one in PUBLISHED], abs=5e-5)


def test_the_intervals_are_those_of_turnbull() -> None:
    """By hand: (0, 4], (2, 6] and alive on day 5: deaths in (2, 4], or in (5, 6], or later."""
    assert innermost([(0, 4), (2, 6), (5, None)]) == [(2, 4), (5, 6)]
    assert innermost([(0, 4), (4, None)]) == [(0, 4), (4, inf)]


SPANS = st.lists(
    st.tuples(st.integers(0, 25), st.one_of(st.none(), st.integers(1, 12))).map(
        lambda drawn: (drawn[0], None if drawn[1] is None else drawn[0] + drawn[1])
    ),
    min_size=1,
    max_size=15,
)


@given(SPANS)
@settings(max_examples=40, deadline=None)
def test_no_shares_are_more_likely(spans: list[tuple[int, int | None]]) -> None:
    """A general maximiser finds no higher likelihood over the same intervals."""
    found = turnbull(spans)
    inside = np.array(
        [
            [a >= alive and b <= (inf if dead is None else dead) for a, b, _ in found]
            for alive, dead in spans
        ],
        dtype=float,
    )

    def unlikely(shares: Floats) -> float:
        return float(-np.log(np.maximum(inside @ shares, 1e-12)).sum())

    best = minimize(
        unlikely,
        np.full(len(found), 1 / len(found)),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.ones(len(found)), 1, 1),
        method="SLSQP",
    )
    assert sum(share for *_, share in found) == pytest.approx(1)
    assert unlikely(np.array([share for *_, share in found])) <= best.fun + 1e-4


@given(st.lists(st.tuples(st.integers(1, 30), st.booleans()), min_size=1, max_size=20))
@settings(max_examples=40, deadline=None)
def test_with_every_death_known_to_the_day_it_is_kaplan_and_meiers(
    lives: list[tuple[int, bool]],
) -> None:
    """The product-limit estimate of scipy, at every age at which somebody died."""
    ages = sorted({age for age, died in lives if died})
    censored = CensoredData.right_censored([a for a, _ in lives], [not d for _, d in lives])
    expected = list(ecdf(censored).sf.evaluate(ages)) if ages else []
    found = alive_at([(age - died, age if died else None) for age, died in lives], ages)
    assert found == pytest.approx(expected, abs=1e-4)


def test_within_an_interval_deaths_are_spread_evenly() -> None:
    """All die between day 10 and day 20: none by 10, half by 15, all by 20."""
    assert alive_at([(10, 20), (10, 20)], [9, 10, 15, 20, 30]) == pytest.approx([1, 1, 0.5, 0, 0])
