"""What looks wrong about a pup's widths: shrinking, standing still, far behind its litter.

A ray does not shrink: a smaller later width is a mistake of the tape or a sick animal. It is
called out and left out of the forecast. The thresholds are common practice, no source.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from math import exp, sqrt
from typing import Literal

from colony.notation.house import say_growth, say_length
from colony.planning.pups.growth import Curve, Width, likely_width_mm
from colony.planning.pups.growth_law import gain_mm

ALLOWED_ERRORS = 2.0
"""Standard errors of a difference by which a width may fall short of an earlier one."""


@dataclass(frozen=True)
class TrustedWidths:
    """The widths a forecast may use, by date, and those it may not."""

    kept: tuple[Width, ...]
    doubtful: tuple[Width, ...]


@dataclass(frozen=True)
class FlagRules:
    """When a pup is called out; common practice, no source."""

    still_weeks: int = 4
    still_share: float = 0.25
    behind_share: float = 0.80
    fewest_mates: int = 2


@dataclass(frozen=True)
class GrowthRecord:
    """What the flags need to know of a pup; `rate_per_year` is its colony's."""

    tag: str
    litter: str
    widths: TrustedWidths
    curve: Curve
    asymptotic_mm: float
    rate_per_year: float
    error_mm: float = 3.0


@dataclass(frozen=True)
class OffCurve:
    """One pup off its curve, and why."""

    tag: str
    kind: Literal["shrank", "stands still", "behind its litter"]
    sentence: str
    since: date | None = None


def trusted_widths(widths: Iterable[Width], error_mm: float = 3.0) -> TrustedWidths:
    """Keep the longest run of widths of which none shrinks by more than measuring explains.

    Of two equally long runs the one with the earlier widths is kept.
    """
    ordered = sorted(widths, key=lambda w: (w.day, w.width_mm))
    allowed_mm = ALLOWED_ERRORS * sqrt(2) * error_mm
    if all(later.width_mm >= width.width_mm for width, later in pairwise(ordered)):
        return TrustedWidths(tuple(ordered), ())
    runs: list[tuple[Width, ...]] = []
    for width in ordered:
        before = [
            run for run in runs if max(w.width_mm for w in run) - allowed_mm <= width.width_mm
        ]
        runs.append((*max(before, key=len, default=()), width))
    kept = max(runs, key=len, default=())
    return TrustedWidths(kept, tuple(w for w in ordered if w not in kept))


def off_curve(
    pups: Sequence[GrowthRecord], today: date, rules: FlagRules = FlagRules()
) -> tuple[OffCurve, ...]:
    """Call out every pup that shrank, stands still, or is far behind its litter-mates."""
    mates: dict[str, dict[str, float]] = {}
    for pup in pups:
        mates.setdefault(pup.litter, {})[pup.tag] = likely_width_mm(pup.curve, today)
    found = (
        flag
        for pup in pups
        for flag in (_shrank(pup), _stands_still(pup, rules), _behind(pup, mates, rules))
    )
    return tuple(flag for flag in found if flag)


def colony_rate(rate_per_year: float, deviation: float) -> float:
    """Turn a species' rate into the colony's by the deviation `fit_colony` found."""
    return rate_per_year * exp(deviation)


def _shrank(pup: GrowthRecord) -> OffCurve | None:
    for doubtful in pup.widths.doubtful:
        fault = _contradicted(doubtful, pup.widths.kept)
        if fault:
            sentence = f"{pup.tag} measured {_cm(doubtful)} on {doubtful.day}, {fault}"
            return OffCurve(pup.tag, "shrank", f"{sentence}; measure it again")
    return None


def _contradicted(doubtful: Width, kept: Sequence[Width]) -> str | None:
    """Say which trusted width a doubtful one cannot stand beside."""
    before = [w for w in kept if w.day <= doubtful.day and w.width_mm > doubtful.width_mm]
    after = [w for w in kept if w.day >= doubtful.day and w.width_mm < doubtful.width_mm]
    if before:
        return f"after {_cm(before[-1])} on {before[-1].day}"
    return f"but {_cm(after[-1])} on {after[-1].day}" if after else None


def _cm(width: Width) -> str:
    return say_length(width.width_mm)


def _stands_still(pup: GrowthRecord, rules: FlagRules) -> OffCurve | None:
    kept = pup.widths.kept
    since = [w for w in kept if w.day <= kept[-1].day - timedelta(weeks=rules.still_weeks)]
    if not since:
        return None
    start, last = since[-1], kept[-1]
    days = (last.day - start.day).days
    expected = gain_mm(start.width_mm, pup.asymptotic_mm, pup.rate_per_year, days)
    gained = last.width_mm - start.width_mm
    if expected < ALLOWED_ERRORS * sqrt(2) * pup.error_mm or gained > rules.still_share * expected:
        return None
    return OffCurve(
        pup.tag,
        "stands still",
        f"{pup.tag} gained {say_growth(gained)} in {days // 7} weeks; "
        f"{say_growth(expected)} were expected",
        since=start.day,
    )


def _behind(
    pup: GrowthRecord, mates: Mapping[str, dict[str, float]], rules: FlagRules
) -> OffCurve | None:
    own = mates.get(pup.litter, {})
    others = sorted(width for tag, width in own.items() if tag != pup.tag)
    if not pup.litter or len(others) < rules.fewest_mates:
        return None
    middle = (others[len(others) // 2] + others[(len(others) - 1) // 2]) / 2
    if own[pup.tag] >= rules.behind_share * middle:
        return None
    return OffCurve(
        pup.tag,
        "behind its litter",
        f"{pup.tag} is {own[pup.tag] / middle:.0%} as wide as the middle of its litter-mates",
    )
