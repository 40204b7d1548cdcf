"""What a water test may say: limits with their source, and what lies outside them."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.house import reading_name, reading_number, say_reading
from colony.planning.water.ammonia import NH3_OF_NITROGEN, unionised_mg_l

COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Limit:
    """The least and most of one parameter (None: no bound), and where they come from."""

    parameter: str
    low: float | None
    high: float | None
    source: str


USUAL_LIMITS = (
    Limit("temperature_c", 24.0, 30.0, COMMON_PRACTICE),
    Limit("ph", 6.0, 7.8, COMMON_PRACTICE),
    Limit(UNIONISED, None, 0.02, "as NH3: US EPA 1976, Quality Criteria for Water (from memory)"),
    Limit("nitrite_mg_l", None, 0.1, COMMON_PRACTICE),
    Limit("nitrate_mg_l", None, 40.0, COMMON_PRACTICE),
    Limit("chlorine_mg_l", None, 0.01, "US EPA 1976, Quality Criteria for Water (from memory)"),
    Limit("oxygen_mg_l", 5.0, None, "US EPA 1976, Quality Criteria for Water (from memory)"),
)
"""The limits of a book that has none of its own."""


@dataclass(frozen=True)
class OutOfLimit:
    """A value that lies outside its limit; `diluted` when water changes lower it.

    `expected` says that it was not tested, but follows from what was fed and changed since.
    """

    parameter: str
    value: float
    limit: Limit
    expected: bool = False

    @property
    def diluted(self) -> bool:
        """Whether new water brings it down."""
        too_high = self.limit.high is not None and self.value > self.limit.high
        return too_high and (self.parameter == UNIONISED or PARAMETERS[self.parameter].diluted)


def strictest(limits: Iterable[Limit]) -> dict[str, Limit]:
    """The narrowest bounds of each parameter among several species that share water."""
    found: dict[str, Limit] = {}
    for limit in limits:
        before = found.get(limit.parameter)
        found[limit.parameter] = limit if before is None else _narrower(before, limit)
    return found


def with_unionised(values: Mapping[str, float]) -> dict[str, float]:
    """Add un-ionised ammonia, as NH3, where ammonia, pH and temperature are all known."""
    total = total_as_nh3(values)
    if total is None or not {"ph", "temperature_c"} <= values.keys():
        return dict(values)
    return {**values, UNIONISED: unionised_mg_l(total, values["ph"], values["temperature_c"])}


def total_as_nh3(values: Mapping[str, float]) -> float | None:
    """Total ammonia in mg/L as NH3, whichever way it was tested; of both the higher."""
    found = [values[name] for name in ("ammonia_nh3_mg_l",) if name in values]
    if "ammonia_mg_l" in values:
        found.append(values["ammonia_mg_l"] * NH3_OF_NITROGEN)
    return max(found, default=None)


def out_of_limits(values: Mapping[str, float], limits: Mapping[str, Limit]) -> list[OutOfLimit]:
    """Name every value that lies outside its limit."""
    return [
        OutOfLimit(name, value, limits[name])
        for name, value in values.items()
        if name in limits and not _within(value, limits[name])
    ]


def _within(value: float, limit: Limit) -> bool:
    low_enough = limit.high is None or value <= limit.high
    return low_enough and (limit.low is None or value >= limit.low)


def _narrower(limit: Limit, other: Limit) -> Limit:
    low = max((x.low for x in (limit, other) if x.low is not None), default=None)
    high = min((x.high for x in (limit, other) if x.high is not None), default=None)
    sources = dict.fromkeys(
        x.source for x in (limit, other) if low in (x.low, None) or high in (x.high, None)
    )
    return Limit(limit.parameter, low, high, "; ".join(sources))


def in_words(bad: OutOfLimit) -> str:
    """A value outside its limit as a person says it: ``nitrite 3 mg/L (at most 0.1)``."""
    name = reading_name(bad.parameter)
    low, high = (
        None if bound is None else reading_number(bad.parameter, bound)
        for bound in (bad.limit.low, bad.limit.high)
    )
    if low is not None and high is not None:
        bounds = f"{low:g} to {high:g}"
    else:
        bounds = f"at most {high:g}" if high is not None else f"at least {low:g}"
    return f"{name} {say_reading(bad.parameter, bad.value)} ({bounds})"
