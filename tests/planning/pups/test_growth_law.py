"""The growth law against widths reckoned apart by its published formula, of numbers and of arrays alike."""

from math import exp, inf, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.pups.growth_law import (
    YEAR_DAYS,
    days_until_width,
    gain_mm,
    width_mm,
    width_slopes,
)

YEARS = (0.25, 0.5, 1, 2, 3, 5, 7, 10)
CHARVET = {
    "F": (149, 763.06, 0.12, [16.71, 18.48, 21.84, 28.00, 33.46, 42.61, 49.80, 57.81]),
    "M": (109, 536.4, 0.22, [13.19, 15.35, 19.34, 26.11, 31.55, 39.41, 44.48, 48.90]),
}
"""First width, asymptotic width and rate of Charvet, Santana, De Lima & Lessa 2018, Age and growth
of the endemic Xingu River stingray Potamotrygon leopoldi, J. Fish Biol. 92:1985-1999. The widths,
in cm, were reckoned by their formula: no table of widths printed there was seen."""

first_widths = st.floats(80, 700)
rates = st.floats(0.05, 3)


@pytest.mark.parametrize("sex", ["F", "M"])
def test_the_law_gives_the_widths_of_the_formula(sex: str) -> None:
    """Width at 0.25 to 10 years for each sex, to 0.01 cm: the arithmetic, no more."""
    start, asymptotic, rate, expected = CHARVET[sex]
    got = [width_mm(start, rate, asymptotic - start, years) / 10 for years in YEARS]
    assert got == pytest.approx(expected, abs=0.006)


@pytest.mark.parametrize("sex", ["F", "M"])
def test_the_law_gives_the_widths_of_the_formula_of_many_at_once(sex: str) -> None:
    """The same table, its row computed as one array, one row for each of two animals."""
    start, asymptotic, rate, expected = CHARVET[sex]
    first = np.full((2, 1), float(start))
    got = width_mm(first, np.full((2, 1), rate), asymptotic - first, np.array([YEARS])) / 10
    assert got == pytest.approx(np.array([expected, expected]), abs=0.006)


@given(first_widths, rates, st.floats(1, 2000))
def test_days_until_a_width_undo_the_law(width: float, rate: float, days: float) -> None:
    """Growing for some days and asking how long that took gives the days back."""
    grown = width_mm(width, rate, 800 - width, days / YEAR_DAYS)
    got = days_until_width(width, rate, 800 - width, grown)
    assert got == pytest.approx(days, rel=0.01, abs=0.5)


def test_a_width_beyond_the_asymptote_never_comes() -> None:
    """What the curve does not reach takes for ever; what is there takes no time."""
    assert days_until_width(140, 0.2, 396, 600) == inf
    assert days_until_width(140, 0.2, 396, 536) == inf
    assert days_until_width(140, 0.0, 396, 200) == inf
    assert days_until_width(140, 0.2, 396, 120) == 0


def test_nothing_is_gained_beyond_the_asymptote() -> None:
    """An animal wider than its species grows stands still; a year's gain is the table's."""
    assert gain_mm(800, 763.06, 0.12, 365) == 0
    assert gain_mm(149, 763.06, 0.12, YEAR_DAYS) == pytest.approx(218.4 - 149, abs=0.06)


@given(first_widths, rates, st.floats(1, 600), st.floats(0, 8))
def test_the_slopes_are_those_of_the_law(
    first: float, rate: float, to_come: float, years: float
) -> None:
    """Each slope is the difference of the law over a small step of its unknown, the others held."""
    wide = first + to_come

    def law(a: float, k: float, z: float) -> float:
        return width_mm(a, exp(k), exp(z) - a, years)

    at, step = (first, log(rate), log(wide)), 1e-4
    got = width_slopes(*(np.array([x]) for x in (first, rate, to_come, years)))
    for number, slope in enumerate(got):
        up, down = (
            law(*(x + sign * step * (n == number) for n, x in enumerate(at))) for sign in (1, -1)
        )
        assert slope[0] == pytest.approx((up - down) / (2 * step), rel=1e-3, abs=1e-3)
