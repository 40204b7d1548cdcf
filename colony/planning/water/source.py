"""What the new water brings with it: whether a change can help at all, and what would if not."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from colony.notation.care import UNIONISED
from colony.planning.water.ammonia import NH3_OF_NITROGEN, unionised_fraction
from colony.planning.water.dilution import after_change
from colony.planning.water.limits import OutOfLimit, total_as_nh3

WOULD_HELP: Mapping[str, str] = {
    "temperature_c": "look at the heaters, the room and the pumps",
    "ph": "test the alkalinity: a low one lets pH fall; acid water and mains water differ",
    "oxygen_mg_l": "more movement of the surface, fewer animals, less heat",
    "conductivity_us_cm": "mix the new water with purer or harder water",
    "hardness_dgh": "mix the new water with softer or harder water",
    "alkalinity_dkh": "mix the new water with softer or harder water",
}
"""What is looked at where no change of water mends a value; common practice, no source."""


@dataclass(frozen=True)
class SourceWater:
    """The new water: what it holds of each parameter in mg/L, and its pH if that is known."""

    holds: Mapping[str, float] = field(default_factory=dict)
    ph: float | None = None

    def of(self, parameter: str) -> float:
        """How much of something it holds."""
        return self.holds.get(parameter, 0.0)


PURE = SourceWater()


def brought_by_source(parameter: str, values: Mapping[str, float], source: SourceWater) -> float:
    """What the new water brings of something, in the terms in which it is limited."""
    if parameter != UNIONISED:
        return source.of(parameter)
    total = source.of("ammonia_mg_l") * NH3_OF_NITROGEN
    return total * unionised_fraction(values["ph"], values["temperature_c"])


def worst_after_change(
    test: OutOfLimit, values: Mapping[str, float], source: SourceWater, fraction: float
) -> float:
    """The value after one change of a fraction of the water, at its worst.

    Un-ionised ammonia follows total ammonia, and rises with pH: it is computed at the higher of
    the two waters' pH (Emerson et al. 1975), for mixing does not tell the pH of the mixture.
    """
    if test.parameter != UNIONISED:
        return after_change(test.value, fraction, source.of(test.parameter))
    total = total_as_nh3(values) or 0.0
    brought = source.of("ammonia_mg_l") * NH3_OF_NITROGEN
    mixed = after_change(total, fraction, brought)
    ph = max(values["ph"], source.ph or 0.0)
    return mixed * unionised_fraction(ph, values["temperature_c"])


def why_no_change_helps(
    test: OutOfLimit, values: Mapping[str, float], source: SourceWater, fraction: float
) -> str | None:
    """Say why no change brings a value within its limit, and what would; None where one does."""
    if not test.diluted:
        return WOULD_HELP.get(test.parameter, "look for the cause")
    limit = test.limit.high or 0.0
    if test.parameter == UNIONISED:
        if worst_after_change(test, values, source, fraction) < test.value:
            return None
        return (
            f"the new water has pH {source.ph:g}, at which more of the ammonia is poisonous: less "
            "food and the filter help, or new water of a lower pH"
        )
    brought = source.of(test.parameter)
    if brought < limit:
        return None
    return f"the new water holds {brought:g} of it: water with less than {limit:g} would help"
