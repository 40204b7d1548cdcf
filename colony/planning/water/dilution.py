"""What changes of water do to anything dissolved in it: in batches, by drip, and in the long run.

All of it is a mass balance of a well-mixed tank; concentrations are in mg/L.
"""

from dataclasses import dataclass
from math import ceil, exp, log


def left_after_changes(fraction: float, times: int) -> float:
    """Share left after some changes of a fraction of the volume each: ``(1 - p)^n``."""
    return (1 - fraction) ** times


def left_after_drip(litres_a_day: float, volume_l: float, days: float) -> float:
    """Share left after a steady drip through a mixed volume: ``exp(-Q t / V)``."""
    return exp(-litres_a_day * days / volume_l)


def after_change(now: float, fraction: float, source: float = 0.0) -> float:
    """Concentration after one change with water that itself holds `source`."""
    return now + fraction * (source - now)


@dataclass(frozen=True)
class Swing:
    """Where a concentration settles: just before each change, and just after it."""

    before: float
    after: float


def steady_batches(added_between: float, fraction: float, source: float = 0.0) -> Swing:
    """Where the concentration settles when as much is added between changes, for ever.

    Parameters
    ----------
    added_between
        What the animals add from one change to the next, mg/L.
    fraction
        Share of the volume that each change replaces, above 0.
    source
        Concentration of the new water, mg/L.
    """
    after = source + added_between * (1 - fraction) / fraction
    return Swing(before=after + added_between, after=after)


def steady_drip(added_mg_a_day: float, litres_a_day: float, source: float = 0.0) -> float:
    """Where the concentration settles under a drip: what comes in has to go out."""
    return source + added_mg_a_day / litres_a_day


@dataclass(frozen=True)
class Changes:
    """So many equal changes, one a day, of this fraction of the volume each."""

    times: int
    fraction: float


def changes_to_reach(
    now: float, target: float, most_fraction: float, source: float = 0.0
) -> Changes | None:
    """The fewest equal changes, each within a limit, that bring `now` down to `target`.

    Returns None where the new water itself holds more than the target: no change gets there.
    """
    if now <= target:
        return Changes(0, 0.0)
    if source >= target:
        return None
    left = (target - source) / (now - source)
    if most_fraction >= 1:
        return Changes(1, 1 - left)
    times = max(1, ceil(log(left) / log(1 - most_fraction) - 1e-9))
    return Changes(times, min(1 - left ** (1 / times), most_fraction))
