"""Expected nitrate: what the food brings in, and what the changes take out."""

from collections.abc import Iterable
from dataclasses import dataclass

from colony.planning.water.dilution import after_change, steady_batches, steady_drip

AMMONIA_OF_PROTEIN = 0.092
"""Ammonia nitrogen from a gram of protein fed; Timmons & Ebeling, Recirculating Aquaculture
(P_TAN = F x PC x 0.092; from memory). A well-run filter turns all of it into nitrate."""

NITRATE_OF_NITROGEN = 62.004 / 14.007
"""Grams of nitrate from a gram of nitrogen: the ratio of their molar masses."""


def nitrate_from_food_mg(food_g: float, protein_fraction: float) -> float:
    """Nitrate in mg that this much food becomes in a system with a mature filter."""
    return food_g * protein_fraction * AMMONIA_OF_PROTEIN * NITRATE_OF_NITROGEN * 1000


@dataclass(frozen=True)
class NitrateDay:
    """One day of a system: food given in g with its protein, and litres of water renewed."""

    food_g: float
    protein_fraction: float
    renewed_l: float


def nitrate_after(
    start_mg_l: float, volume_l: float, days: Iterable[NitrateDay], source_mg_l: float = 0.0
) -> float:
    """Follow nitrate from a test through the days since: feed first, then the change."""
    now = start_mg_l
    for day in days:
        now += nitrate_from_food_mg(day.food_g, day.protein_fraction) / volume_l
        now = after_change(now, min(day.renewed_l / volume_l, 1.0), source_mg_l)
    return now


def nitrate_in_the_long_run(
    made_mg_a_day: float, volume_l: float, changed_l: float, every_days: int, source: float = 0.0
) -> float:
    """The highest nitrate that feed and batch changes settle at, just before a change."""
    added = made_mg_a_day * every_days / volume_l
    return steady_batches(added, changed_l / volume_l, source).before


def nitrate_under_drip(made_mg_a_day: float, litres_a_day: float, source: float = 0.0) -> float:
    """The nitrate that feed and a constant drip settle at."""
    return steady_drip(made_mg_a_day, litres_a_day, source)
