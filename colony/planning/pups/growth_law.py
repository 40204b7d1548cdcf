"""How a ray's disc widens: the law of von Bertalanffy, started from the animal's own width.

``W(t) = Winf - (Winf - W0) exp(-k t)`` with t in years (von Bertalanffy 1938, A quantitative
theory of organic growth, Human Biology 10:181-213; for a freshwater ray Charvet, Santana,
De Lima & Lessa 2018, J. Fish Biol. 92:1985-1999). The width still to come is ``Winf - W0``.
"""

from math import expm1, inf, log
from typing import TYPE_CHECKING, NamedTuple, TypeVar

if TYPE_CHECKING:
    from colony.planning.arrays import Floats

Number = TypeVar("Number", float, "Floats")
"""A number, or an array of them. Numbers load no numpy: listings ask for single widths."""

YEAR_DAYS = 365.25


def width_mm(first_mm: Number, rate_per_year: Number, to_come_mm: Number, years: Number) -> Number:
    """Disc width some years after a first one, of one animal or of arrays that broadcast.

    Examples
    --------
    A female P. leopoldi one year after 14.9 cm (Charvet et al. 2018):

    >>> round(width_mm(149, 0.12, 763.06 - 149, 1.0) / 10, 2)
    21.84
    """
    passed = -rate_per_year * years
    if isinstance(passed, float):
        return first_mm - to_come_mm * expm1(passed)
    import numpy as np  # noqa: PLC0415 - arrays alone need it

    return first_mm - to_come_mm * np.expm1(passed)


def days_until_width(
    first_mm: float, rate_per_year: float, to_come_mm: float, wanted_mm: float
) -> float:
    """Days from a width to a wanted one; 0 if it is there, infinite if it never comes."""
    left_mm = first_mm + to_come_mm - wanted_mm
    if wanted_mm <= first_mm:
        return 0.0
    if left_mm <= 0 or rate_per_year <= 0:
        return inf
    return -log(left_mm / to_come_mm) / rate_per_year * YEAR_DAYS


def gain_mm(first_mm: float, asymptotic_mm: float, rate_per_year: float, days: float) -> float:
    """What an animal of some width gains in some days: nothing beyond its asymptotic width."""
    to_come_mm = max(asymptotic_mm - first_mm, 0.0)
    return width_mm(first_mm, rate_per_year, to_come_mm, days / YEAR_DAYS) - first_mm


class WidthSlopes(NamedTuple):
    """Derivatives of a width, in mm: by the first width, log rate and log asymptotic width."""

    by_first: "Floats"
    by_log_rate: "Floats"
    by_log_asymptotic: "Floats"


def width_slopes(
    first_mm: "Floats", rate_per_year: "Floats", to_come_mm: "Floats", years: "Floats"
) -> WidthSlopes:
    """Derivatives of `width_mm` at arrays that broadcast."""
    import numpy as np  # noqa: PLC0415 - arrays alone need it

    passed = rate_per_year * years
    left = np.exp(-passed)
    asymptotic = first_mm + to_come_mm
    return WidthSlopes(left, to_come_mm * passed * left, asymptotic * (1 - left))
