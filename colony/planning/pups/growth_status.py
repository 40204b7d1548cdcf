"""The status of growth, for every morning: no curve is fitted, the colony's pace is enough.

The pace of a species in this house is the sum of what its pups gained over the sum of what
the published law would have given them (a ratio estimator: Cochran, Sampling Techniques,
3rd ed. 1977, ch. 6). `growth_fit` says the same pup by pup, with intervals, and takes longer.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from colony.planning.pups.gates import PupFacts
from colony.planning.pups.growth import (
    Curve,
    first_curve,
)
from colony.planning.pups.growth_flags import GrowthRecord, OffCurve, TrustedWidths, off_curve
from colony.planning.pups.growth_law import gain_mm

PACE_WEIGHT_MM = 20.0
"""What the published pace is worth: the growth of two pups in two months; common practice, no source."""


@dataclass(frozen=True)
class GrowthStatus:
    """Each pup's curve by the pace of its species, and who is off it."""

    curves: Mapping[str, Curve]
    off: tuple[OffCurve, ...]


def growth_status(pups: Sequence[PupFacts], today: date) -> GrowthStatus:
    """Look over the growing pups of a house."""
    paces = _paces(pups)
    records = [record for pup in pups for record in _record(pup, paces)]
    return GrowthStatus({record.tag: record.curve for record in records}, off_curve(records, today))


def _paces(pups: Iterable[PupFacts]) -> Mapping[str, float]:
    """Tell how many times faster than published each species grows in this house."""
    gained: dict[str, float] = defaultdict(lambda: PACE_WEIGHT_MM)
    expected: dict[str, float] = defaultdict(lambda: PACE_WEIGHT_MM)
    for pup in pups:
        if pup.prior is None or len(pup.widths) < 2:  # noqa: PLR2004 - a gain needs two widths
            continue
        first, last = pup.widths[0], pup.widths[-1]
        days = (last.day - first.day).days
        gained[pup.species] += last.width_mm - first.width_mm
        expected[pup.species] += gain_mm(
            first.width_mm, pup.prior.asymptotic_mm, pup.prior.rate_per_year, days
        )
    return {species: gained[species] / expected[species] for species in gained}


def _record(pup: PupFacts, paces: Mapping[str, float]) -> Iterable[GrowthRecord]:
    if pup.prior is None:
        return
    rate = pup.prior.rate_per_year * paces.get(pup.species, 1.0)
    curve = first_curve(pup.widths, replace(pup.prior, rate_per_year=rate), born=pup.born)
    if curve is not None:
        yield GrowthRecord(
            tag=pup.tag,
            litter=pup.litter,
            widths=TrustedWidths(pup.widths, pup.doubtful),
            curve=curve,
            asymptotic_mm=pup.prior.asymptotic_mm,
            rate_per_year=rate,
        )
