"""Whether the forecasts keep their word: every animal's last width held out and forecast.

Real growth has seasons and bad weeks that no smooth law knows. How much too narrow the
intervals were for the colony's own last widths is what they are stretched by.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from colony.planning.arrays import Floats
from colony.planning.pups.growth import TAIL, Width
from colony.planning.pups.growth_data import Grower
from colony.planning.pups.growth_fit import ColonyGrowth, Spreads, fit_colony
from colony.planning.pups.growth_many import forecasts_mm

Z_TAIL = 1.2815515655446004
"""The standard normal deviate with 10 % beyond it."""

MOST = 4.0
"""No interval is stretched further than this."""


@dataclass(frozen=True)
class HeldOut:
    """How the forecasts of held-out widths came out.

    `covered` is the share of `widths` last widths inside their unstretched 80 % intervals,
    measuring error included; `stretch` is what the intervals have to be multiplied by.
    """

    widths: int
    covered: float
    stretch: float


@dataclass(frozen=True)
class _Misses:
    """Held-out widths: how far off each was, (n,), and the two sources of its spread, in mm."""

    off_mm: Floats
    half_mm: Floats
    error_mm: float

    def share(self, stretch: float) -> float:
        """Share of them inside their intervals, if those were stretched so."""
        reach = np.hypot(stretch * self.half_mm, Z_TAIL * self.error_mm)
        return float((self.off_mm <= reach).mean())


def held_out(growers: Sequence[Grower], start: Spreads | None = None) -> HeldOut:
    """Forecast the last width of every animal that has two or more, from all the others.

    Parameters
    ----------
    growers
        The animals of the colony with their trusted widths.
    start
        Where the spreads start; see `growth_fit.Spreads`.

    Returns
    -------
    HeldOut
        With no widths to hold out, nothing is covered and the stretch is 1.
    """
    last = {g.tag: g.starts[-1] for g in growers if len(g.widths) > 1}
    shortened = [replace(g, widths=g.starts[:-1]) if g.tag in last else g for g in growers]
    fit = fit_colony(shortened, start or Spreads())
    if not last:
        return HeldOut(0, 0.0, 1.0)
    misses = _missed(fit, last)
    return HeldOut(len(last), misses.share(1.0), _stretch(misses))


def calibrated(
    growers: Sequence[Grower], start: Spreads | None = None
) -> tuple[ColonyGrowth, HeldOut]:
    """Fit the colony, its intervals stretched by what holding out its last widths shows."""
    checked = held_out(growers, start)
    return fit_colony(growers, start or Spreads(), stretch=checked.stretch), checked


def _missed(fit: ColonyGrowth, last: Mapping[str, Width]) -> _Misses:
    curves = [fit.curves[tag] for tag in last]
    expected = forecasts_mm(curves, [width.day for width in last.values()])
    low, likely, high = expected.T
    widths_mm = np.array([width.width_mm for width in last.values()])
    half = np.where(widths_mm > likely, high - likely, likely - low)
    return _Misses(np.abs(widths_mm - likely), half, fit.spreads.error_mm)


def _stretch(misses: _Misses) -> float:
    """Take the least stretch with which the colony no longer shows that it is too narrow.

    That is when the share held is within one standard error of what was promised.
    """
    promised = 1 - 2 * TAIL
    enough = promised - sqrt(promised * (1 - promised) / len(misses.off_mm))
    tried = (1 + step / 20 for step in range(int((MOST - 1) * 20)))
    return next((stretch for stretch in tried if misses.share(stretch) >= enough), MOST)
