"""What is believed of the growth of one pup, and its forecast; `growth_law` is the law."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import cached_property, lru_cache
from math import ceil, exp, inf, log

from colony.planning.pups.growth_law import YEAR_DAYS, days_until_width, width_mm

TAIL = 0.10
"""Share of the forecasts below the low bound and above the high one: an 80 % interval."""

DRAWS = 64
"""How many curves stand for what is believed of one pup."""

Triangle = tuple[float, float, float, float, float, float]
"""A lower triangular 3 x 3 matrix, row by row."""


@dataclass(frozen=True)
class GrowthPrior:
    """What is known of a species and sex before the colony's own widths.

    The spreads are standard deviations of natural logarithms. They are wide because captive
    growth outruns wild growth and published rates conflict; common practice, no source.
    """

    asymptotic_mm: float
    rate_per_year: float
    birth_mm: float = 140.0
    asymptotic_spread: float = 0.15
    rate_spread: float = 0.7
    birth_spread_mm: float = 15.0


@dataclass(frozen=True)
class Width:
    """A measured disc width."""

    day: date
    width_mm: float


@dataclass(frozen=True)
class WidthForecast:
    """A disc width on a day, with its 80 % interval, in mm."""

    day: date
    width_mm: float
    low_mm: float
    high_mm: float


@dataclass(frozen=True)
class Reach:
    """When a width will be reached: 80 % interval; None for a date that may never come."""

    low: date | None
    likely: date | None
    high: date | None


@dataclass(frozen=True)
class Curve:
    """What is believed of one pup on day `on`: a normal on width, log rate, log asymptote.

    `mean` is (width in mm, log of rate per year, log of asymptotic width in mm); `triangle`
    is the Cholesky factor of their covariance. The pup's future is the bundle of `DRAWS`
    von Bertalanffy curves drawn from it at fixed points, so that every quantile of the
    bundle grows with the days: no forecast shrinks a pup.
    """

    on: date
    mean: tuple[float, float, float]
    triangle: Triangle = field(repr=False)

    @cached_property
    def bundle(self) -> tuple[tuple[float, float, float], ...]:
        """The curves: width on day `on` (mm), rate (per year), width still to come (mm)."""
        return tuple(self._curve_at(*point) for point in normal_points())

    @cached_property
    def middle(self) -> tuple[float, float, float]:
        """The curve at the mean, in the terms of `bundle`."""
        return self._curve_at(0.0, 0.0, 0.0)

    def _curve_at(self, a: float, b: float, c: float) -> tuple[float, float, float]:
        w, k, z = self.mean
        t = self.triangle
        width = w + t[0] * a
        asymptotic = exp(z + t[3] * a + t[4] * b + t[5] * c)
        return width, exp(k + t[1] * a + t[2] * b), max(asymptotic - width, 0.0)


def first_curve(
    widths: Sequence[Width], prior: GrowthPrior, *, born: date | None, error_mm: float = 3.0
) -> Curve | None:
    """Start the species curve from the pup's last width, or from birth when it has none.

    This uses nothing but the prior and one width; `growth_fit.fit_colony` uses all widths
    of the colony. None when there is neither a width nor a date of birth.
    """
    last = max(widths, key=lambda w: w.day, default=None)
    start = Width(born, prior.birth_mm) if last is None and born is not None else last
    if start is None:
        return None
    unsure_mm = prior.birth_spread_mm if last is None else error_mm
    mean = (start.width_mm, log(prior.rate_per_year), log(prior.asymptotic_mm))
    triangle = (unsure_mm, 0.0, prior.rate_spread, 0.0, 0.0, prior.asymptotic_spread)
    return Curve(start.day, mean, triangle)


def forecast(curve: Curve, day: date) -> WidthForecast:
    """Disc width on a day with its 80 % interval; before day `on` it stands still."""
    years = max((day - curve.on).days, 0) / YEAR_DAYS
    spread = sorted(width_mm(*grown, years) for grown in curve.bundle)
    low, high = _quantile(spread, TAIL), _quantile(spread, 1 - TAIL)
    return WidthForecast(day, min(max(width_mm(*curve.middle, years), low), high), low, high)


def likely_width_mm(curve: Curve, day: date) -> float:
    """Disc width on a day without its interval, which is most of the work of `forecast`."""
    return width_mm(*curve.middle, max((day - curve.on).days, 0) / YEAR_DAYS)


def reach(curve: Curve, wanted_mm: float) -> Reach:
    """When the pup reaches a width: the interval comes from the days each curve needs."""
    spread = sorted(days_until_width(*grown, wanted_mm) for grown in curve.bundle)
    low, high = _quantile(spread, TAIL), _quantile(spread, 1 - TAIL)
    likely = min(max(days_until_width(*curve.middle, wanted_mm), low), high)
    return Reach(
        low=_date_in(curve.on, low),
        likely=_date_in(curve.on, likely),
        high=_date_in(curve.on, high),
    )


@lru_cache(maxsize=1)
def normal_points() -> tuple[tuple[float, float, float], ...]:
    """Lay fixed points in a 3-dimensional standard normal, each beside its mirror image.

    An additive recurrence on the plastic constant's relative in three dimensions (the root
    of x^4 = x + 1) fills the cube evenly; the inverse normal takes it to the normal.
    """
    from statistics import NormalDist  # noqa: PLC0415 - slow to load, not needed by every listing

    inverse: Callable[[float], float] = NormalDist().inv_cdf
    root = 1.2207440846057596
    steps = (1 / root, 1 / root**2, 1 / root**3)
    points = []
    for n in range(1, DRAWS // 2 + 1):
        a, b, c = (inverse((0.5 + n * step) % 1) for step in steps)
        points += [(a, b, c), (-a, -b, -c)]
    return tuple(points)


def _quantile(ordered: Sequence[float], share: float) -> float:
    """Quantile by linear interpolation between the midpoints of the steps."""
    place = min(max(share * len(ordered) - 0.5, 0), len(ordered) - 1)
    below = int(place)
    above = min(below + 1, len(ordered) - 1)
    if ordered[above] == inf:
        return inf if place > below else ordered[below]
    return ordered[below] + (place - below) * (ordered[above] - ordered[below])


def _date_in(start: date, days: float) -> date | None:
    if days > (date.max - start).days:
        return None
    return start + timedelta(days=ceil(days))
