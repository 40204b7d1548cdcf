"""What a growth curve shows, before it is drawn: a pup, its litter-mates, its species."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.pups.growth import (
    Curve,
    GrowthPrior,
    Width,
    WidthForecast,
    forecast,
)
from colony.planning.pups.growth_law import gain_mm

STEPS = 48
"""How many points a drawn line has."""

Line = tuple[tuple[date, float], ...]


@dataclass(frozen=True)
class GrowthPicture:
    """A pup's widths and forecast, its litter-mates' widths and the species' curve, in mm.

    `wanted_mm` is the width it has to reach, None for no such line.
    """

    tag: str
    measured: Line
    doubtful: Line
    forecast: tuple[WidthForecast, ...]
    mates: Mapping[str, Line]
    species: Line
    wanted_mm: float | None

    @property
    def first_day(self) -> date:
        """The left edge."""
        return min(day for line in self._lines for day, _ in line)

    @property
    def last_day(self) -> date:
        """The right edge, at least a day from the left one."""
        last = max(day for line in self._lines for day, _ in line)
        return max(last, self.first_day + timedelta(days=1))

    @property
    def bottom_mm(self) -> float:
        """The lower edge: whole 2 cm."""
        return 20 * (min(self._widths) // 20)

    @property
    def top_mm(self) -> float:
        """The upper edge: whole 2 cm, above the lower one."""
        return 20 * (max(self._widths) // 20 + 1)

    @property
    def _lines(self) -> list[Line]:
        bounds = tuple((f.day, f.high_mm) for f in self.forecast)
        lows = tuple((f.day, f.low_mm) for f in self.forecast)
        lines = [self.measured, self.doubtful, bounds, lows, self.species, *self.mates.values()]
        return [line for line in lines if line]

    @property
    def _widths(self) -> list[float]:
        wanted = [] if self.wanted_mm is None else [self.wanted_mm]
        return [width for line in self._lines for _, width in line] + wanted


@dataclass(frozen=True)
class Growing:
    """A pup to be drawn: its trusted and doubtful widths, its curve and its species' prior."""

    tag: str
    widths: Sequence[Width]
    doubtful: Sequence[Width]
    curve: Curve
    prior: GrowthPrior


def growth_picture(
    pup: Growing,
    mates: Mapping[str, Sequence[Width]],
    *,
    until: date,
    wanted_mm: float | None = None,
) -> GrowthPicture:
    """Put together what the growth curve of a pup shows.

    The species' curve starts from the pup's own first width, and shows how the species is
    published to grow from there.
    """
    start = min(pup.widths, key=lambda w: w.day, default=Width(pup.curve.on, pup.curve.mean[0]))
    until = max(until, pup.curve.on + timedelta(days=1))
    return GrowthPicture(
        tag=pup.tag,
        measured=_line(pup.widths),
        doubtful=_line(pup.doubtful),
        forecast=tuple(forecast(pup.curve, day) for day in _days(pup.curve.on, until)),
        mates={tag: _line(widths) for tag, widths in mates.items() if widths},
        species=tuple(
            (day, _published_mm(start, pup.prior, day)) for day in _days(start.day, until)
        ),
        wanted_mm=wanted_mm,
    )


def _published_mm(start: Width, prior: GrowthPrior, day: date) -> float:
    days = (day - start.day).days
    gained = gain_mm(start.width_mm, prior.asymptotic_mm, prior.rate_per_year, days)
    return start.width_mm + gained


def _line(widths: Sequence[Width]) -> Line:
    return tuple((w.day, w.width_mm) for w in sorted(widths, key=lambda w: w.day))


def _days(first: date, last: date) -> list[date]:
    span = (last - first).days
    offsets = sorted({round(span * n / STEPS) for n in range(STEPS + 1)})
    return [first + timedelta(days=offset) for offset in offsets]
