"""Whether what is about to be written can be meant: it is asked about before it is written."""

from collections.abc import Sequence
from math import pi
from typing import Literal

from colony.notation.house import say_growth, say_length, say_mass, say_volume

IMPLAUSIBLE_MM_A_WEEK = 20
"""Faster than any ray is known to grow; common practice, no source."""

MEASURING_ERROR_MM = 5
"""Widths that differ by less may be of one width; common practice, no source."""

NARROWEST, WIDEST = 0.5, 1.25
"""Of the width at birth, and of the greatest of its species: beyond, a first width is doubted."""

MOST_FOOD_G_A_CM2 = 0.2
"""Grams of food for a square centimetre of disc: several full meals; common practice, no source."""

LITTERS = 2.0
"""Times the largest litter of the species: more is a slip of a key; common practice, no source."""


def odd_growth(grown_mm: int, mm_a_week: float) -> Literal["shrank", "leapt"] | None:
    """What is odd between two widths, beyond what measuring alone explains."""
    if abs(grown_mm) < MEASURING_ERROR_MM:
        return None
    if grown_mm < 0:
        return "shrank"
    return "leapt" if mm_a_week > IMPLAUSIBLE_MM_A_WEEK else None


def doubts_of_growth(tag: str, grown_mm: int, mm_a_week: float) -> tuple[str, ...]:
    """What is odd of a width after another one, in a sentence."""
    match odd_growth(grown_mm, mm_a_week):
        case "shrank":
            return (
                f"{tag} measured {say_growth(-grown_mm)} less than last time: rays do not shrink",
            )
        case "leapt":
            return (
                f"{tag} would have grown {say_growth(mm_a_week)} a week: check the tag and the width",
            )
        case _:
            return ()


def doubts_of_forecast(tag: str, width_mm: int, low_mm: float, high_mm: float) -> tuple[str, ...]:
    """What is odd of a width beside the animal's own forecast, its 80 % interval in mm.

    Beyond the interval by more than once its own length, and by what measuring errs: if the
    forecast is normal, one honest width in some ten thousand.
    """
    far_mm = high_mm - low_mm + MEASURING_ERROR_MM
    if low_mm - far_mm <= width_mm <= high_mm + far_mm:
        return ()
    expected = f"{say_length(round(low_mm))} to {say_length(round(high_mm))}"
    return (f"{tag} would be {say_length(width_mm)} wide: by its own growth, {expected}",)


def doubts_of_first_width(
    tag: str, width_mm: int, birth_mm: float, greatest_mm: float
) -> tuple[str, ...]:
    """What is odd of the first width of an animal, by the widths of its species in mm."""
    if NARROWEST * birth_mm <= width_mm <= WIDEST * greatest_mm:
        return ()
    span = f"{say_length(birth_mm)} at birth, at most about {say_length(greatest_mm)}"
    return (f"{tag} would be {say_length(width_mm)} wide: its species is {span}",)


def doubts_of_litter(dam: str, pups: int, most: float) -> tuple[str, ...]:
    """A litter of over twice the most that its species is known to bear."""
    if pups <= LITTERS * most:
        return ()
    return (f"{pups} pups of {dam}: her species bears {most:.0f} at most",)


def doubts_of_meal(
    tank: str, offered_g: int | None, widths_mm: Sequence[float | None]
) -> tuple[str, ...]:
    """More food than those in a tank could eat; nothing is said where a width is not known."""
    if offered_g is None or not widths_mm or None in widths_mm:
        return ()
    discs_cm2 = sum(pi / 4 * (width / 10) ** 2 for width in widths_mm if width)
    most = MOST_FOOD_G_A_CM2 * discs_cm2
    if offered_g <= most:
        return ()
    offered, great = say_mass(offered_g), say_mass(round(most))
    return (f"{offered} for {len(widths_mm)} in {tank}: {great} is a great deal for them",)


def doubts_of_change(system: str, litres: int, ready_l: int | None) -> tuple[str, ...]:
    """More water than the reserve holds, where there is one."""
    if ready_l is None or litres <= ready_l:
        return ()
    return (f"{say_volume(litres)} for {system}: the reserve holds {say_volume(ready_l)}",)
