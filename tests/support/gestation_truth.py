"""Colonies whose gestations are known, to hold due windows against."""

from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

import numpy as np

from colony.planning.litters.conception import Evidence, Sign
from colony.planning.litters.due_window import due_window
from colony.planning.litters.gestation import GestationLength, GestationPrior

LEOPOLDI = GestationPrior(90, 168, 180)
"""A lopsided species: most carry nearly as long as the longest."""

MATED = date(2024, 1, 1)
DAM_SHARE = 1 / 3
"""Of the variance within a colony, what lies between its dams; common practice, no source."""


@dataclass(frozen=True)
class Held:
    """The share of births inside their 90 % window, and its mean width in days."""

    share: float
    width_days: float


def held_and_width(
    births: int,
    within_days: float,
    *,
    colonies: int,
    mean_days: float | None = None,
) -> Held:
    """Draw colonies, forecast one more birth in each, and count.

    The colony's mean is drawn from the species, or is `mean_days`; its births scatter by
    `within_days` (standard deviation), a third of the variance between dams. `births` are on
    record, of up to four dams; half of the time the next is that of one of them.
    """
    chance = np.random.default_rng(births * 1000 + round(10 * within_days))
    hits, widths = [], []
    for _ in range(colonies):
        middle = _mean(LEOPOLDI, within_days, chance) if mean_days is None else mean_days
        dams = middle + within_days * sqrt(DAM_SHARE) * chance.normal(size=5)
        litter = within_days * sqrt(1 - DAM_SHARE)
        past = []
        for n in range(births):
            days = float(dams[n % 4] + litter * chance.normal())
            past.append(GestationLength(f"d{n % 4}", days))
        which = 0 if chance.random() < 0.5 else 4
        born = MATED + timedelta(days=round(float(dams[which] + litter * chance.normal())))
        seen = Evidence(f"d{which}", signs=(Sign(MATED, "copulation"),))
        window = due_window(LEOPOLDI, seen, past, today=MATED)
        assert window is not None
        hits.append(window.earliest <= born <= window.latest)
        widths.append((window.latest - window.earliest).days)
    return Held(float(np.mean(hits)), float(np.mean(widths)))


def _mean(prior: GestationPrior, within_days: float, chance: np.random.Generator) -> float:
    """Draw the mean of a colony from what its species leaves open."""
    z = float(chance.normal())
    spread = prior.spread_days(prior.low_days if z < 0 else prior.high_days)
    return prior.likely_days + z * sqrt(max(spread**2 - within_days**2, 1.0))
