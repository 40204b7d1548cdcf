"""Whether the forecasts keep their word: every animal's last width held out and forecast.

Real growth has seasons and bad weeks that no smooth law knows. How much too narrow the
intervals were for the colony's own last widths is what they are stretched by.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot, sqrt

from colony.planning.growth import TAIL, Width, forecast
from colony.planning.growth_data import Grower
from colony.planning.growth_fit import ColonyGrowth, Spreads, fit_colony

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
class _Miss:
    """A held-out width: how far off it was, and the two sources of its spread, in mm."""

    off_mm: float
    half_mm: float
    error_mm: float

    def inside(self, stretch: float) -> bool:
        return self.off_mm <= hypot(stretch * self.half_mm, Z_TAIL * self.error_mm)


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
    fit = fit_colony([_without_last(g) for g in growers], start or Spreads())
    misses = [_missed(fit, tag, width) for tag, width in last.items()]
    if not misses:
        return HeldOut(0, 0.0, 1.0)
    return HeldOut(len(misses), _share(misses, 1.0), _stretch(misses))


def calibrated(
    growers: Sequence[Grower], start: Spreads | None = None
) -> tuple[ColonyGrowth, HeldOut]:
    """Fit the colony, its intervals stretched by what holding out its last widths shows."""
    checked = held_out(growers, start)
    return fit_colony(growers, start or Spreads(), stretch=checked.stretch), checked


def _without_last(grower: Grower) -> Grower:
    return replace(grower, widths=grower.starts[:-1]) if len(grower.widths) > 1 else grower


def _missed(fit: ColonyGrowth, tag: str, width: Width) -> _Miss:
    expected = forecast(fit.curves[tag], width.day)
    above = width.width_mm > expected.width_mm
    half = expected.high_mm - expected.width_mm if above else expected.width_mm - expected.low_mm
    return _Miss(abs(width.width_mm - expected.width_mm), half, fit.spreads.error_mm)


def _stretch(misses: Sequence[_Miss]) -> float:
    """Take the least stretch with which the colony no longer shows that it is too narrow.

    That is when the share held is within one standard error of what was promised.
    """
    promised = 1 - 2 * TAIL
    enough = promised - sqrt(promised * (1 - promised) / len(misses))
    tried = (1 + step / 20 for step in range(int((MOST - 1) * 20)))
    return next((stretch for stretch in tried if _share(misses, stretch) >= enough), MOST)


def _share(misses: Sequence[_Miss], stretch: float) -> float:
    return sum(miss.inside(stretch) for miss in misses) / len(misses)
