"""How a breeder writes a length, a mass or a volume: ``12.5cm``, ``5in``, ``1.2kg``, ``40gal``."""

import re
from dataclasses import dataclass

from colony.refusals.notation import (
    MeasureOutOfRange,
    ThousandsOrDecimals,
    UnknownUnit,
    UnreadableMeasure,
)

_NUMBER_AND_UNIT = re.compile(r"(\d{1,9}(?:[.,]\d{1,6})?)\s*([a-z]*3?|\")", re.ASCII)


_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}", re.ASCII)
"""One thousand to some readers, one and a bit to others."""


@dataclass(frozen=True)
class Quantity:
    """One kind of measure: its units in terms of the unit that is stored, and what is sane."""

    name: str
    example: str
    most: int
    units: dict[str, float]


LENGTH = Quantity(
    "length", "12.5cm or 5in", 20_000, {"mm": 1, "cm": 10, "m": 1000, "in": 25.4, '"': 25.4}
)
"""Stored in millimetres; nothing in the house is longer than 20 m."""

MASS = Quantity(
    "mass", "450g or 1.2kg", 500_000, {"g": 1, "kg": 1000, "oz": 28.349523125, "lb": 453.59237}
)
"""Stored in grams."""

VOLUME = Quantity("volume", "800L or 200gal", 1_000_000, {"l": 1, "m3": 1000, "gal": 3.785411784})
"""Stored in litres; a gallon is the US gallon."""


def parse_measure(text: str, quantity: Quantity, bare_unit: str, least: int = 1) -> int:
    """Read a measure as a whole number of the stored unit (mm, g or L).

    Parameters
    ----------
    text
        A number with or without a unit; a comma is taken as a decimal point.
    quantity
        ``LENGTH``, ``MASS`` or ``VOLUME``.
    bare_unit
        The unit of a number without one.
    least
        The least it can be, in the stored unit: 0 where nothing at all is an answer too.

    Raises
    ------
    UnreadableMeasure
        There is no number to read.
    ThousandsOrDecimals
        A comma before three digits, as in ``1,500``.
    UnknownUnit
        The unit is not one of the quantity's.
    MeasureOutOfRange
        Nothing, or more than the quantity can sanely be.
    """
    matched = _NUMBER_AND_UNIT.fullmatch(text.strip().lower())
    if matched is None:
        raise UnreadableMeasure(text, quantity.name, quantity.example)
    if _THOUSANDS.fullmatch(matched[1]):
        raise ThousandsOrDecimals(text)
    number, unit = float(matched[1].replace(",", ".")), matched[2] or bare_unit.lower()
    if unit not in quantity.units:
        raise UnknownUnit(text, quantity.name, list(quantity.units))
    stored = round(number * quantity.units[unit])
    if not least <= stored <= quantity.most:
        raise MeasureOutOfRange(text, quantity.name, quantity.example)
    return stored


def parse_length_mm(text: str, bare_unit: str = "cm") -> int:
    """Read a length as whole millimetres; see `parse_measure` for what is refused."""
    return parse_measure(text, LENGTH, bare_unit)


def parse_mass_g(text: str, bare_unit: str = "g") -> int:
    """Read a mass as whole grams; see `parse_measure` for what is refused."""
    return parse_measure(text, MASS, bare_unit)


def parse_volume_l(text: str, bare_unit: str = "l", least: int = 1) -> int:
    """Read a volume as whole litres; see `parse_measure` for what is refused."""
    return parse_measure(text, VOLUME, bare_unit, least)
