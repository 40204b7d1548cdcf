"""How this house writes a length, a mass, a volume, a temperature: in its own units.

As with a locale there is one way at a time: whoever opens a book sets it by the book's settings,
and every sentence written from then on has it. What is stored, and JSON, is mm, g, L and C.
"""

from dataclasses import dataclass

from colony.notation.care import PARAMETERS
from colony.notation.measures import LENGTH, MASS, VOLUME

_SIGNS = {"l": "L"}
_FINE = {"mm": 0, "cm": 1, "in": 1, "g": 0, "kg": 2, "oz": 1, "lb": 2, "l": 0, "gal": 0}
"""How many decimals each unit is worth."""

_SMALLER = {"kg": "g", "lb": "oz"}
"""The unit in which less than one is said."""

_GROWN = {"mm": ("mm", 0), "cm": ("mm", 0), "in": ("in", 2)}
"""In which unit a small difference of lengths is said, and to how many decimals."""


@dataclass(frozen=True)
class HouseUnits:
    """The units of a house; each `Quantity` of measures has the names of its own."""

    length: str = "cm"
    mass: str = "g"
    volume: str = "l"
    degrees: str = "C"


_now = HouseUnits()


def use_units(units: HouseUnits) -> None:
    """Write in these units from now on."""
    global _now  # noqa: PLW0603 - one house at a time, as with a locale
    _now = units


def units_now() -> HouseUnits:
    """The units in which is written now."""
    return _now


def show_length(length_mm: float | None) -> str:
    """A length in a table, always with its decimals, or a dash where none is known."""
    if length_mm is None:
        return "-"
    return f"{length_mm / LENGTH.units[_now.length]:.1f} {_now.length}"


def say_length(length_mm: float) -> str:
    """A length in a sentence: ``26 cm``, ``10.2 in``."""
    return f"{length_number(length_mm)} {_now.length}"


def length_number(length_mm: float) -> str:
    """A length without its unit, for the scale of a drawing."""
    return _number(length_mm / LENGTH.units[_now.length], _FINE[_now.length])


def say_growth(grown_mm: float, *, signed: bool = False) -> str:
    """A small difference of lengths: ``12 mm``, ``0.47 in``; `signed`, always with its sign."""
    unit, decimals = _GROWN[_now.length]
    number = _number(grown_mm / LENGTH.units[unit], decimals)
    return f"{'+' if signed and grown_mm >= 0 else ''}{number} {unit}"


def say_mass(mass_g: float) -> str:
    """A mass: ``450 g``, ``1.2 lb``; less than one kilogram or pound in its smaller unit."""
    unit = _now.mass if mass_g >= MASS.units[_now.mass] else _SMALLER.get(_now.mass, _now.mass)
    return f"{_number(mass_g / MASS.units[unit], _FINE[unit])} {unit}"


def show_mass(mass_g: float | None) -> str | None:
    """A mass in a table; None where none is known."""
    return None if mass_g is None else say_mass(mass_g)


def volume_number(volume_l: float) -> str:
    """A volume without its unit, for a column that is headed by it."""
    return _number(volume_l / VOLUME.units[_now.volume], _FINE[_now.volume])


def volume_unit() -> str:
    """The sign of the unit of volumes."""
    return _SIGNS.get(_now.volume, _now.volume)


def say_volume(volume_l: float) -> str:
    """A volume: ``800 L``, ``211 gal``."""
    return f"{volume_number(volume_l)} {volume_unit()}"


def reading_number(parameter: str, value: float) -> float:
    """A value of a water test in the house's unit; only a temperature has another one."""
    in_f = parameter == "temperature_c" and _now.degrees == "F"
    return round(value * 1.8 + 32, 1) if in_f else value


def reading_unit(parameter: str) -> str:
    """The unit of a value of a water test, as the house writes it."""
    if parameter == "temperature_c":
        return _now.degrees
    return PARAMETERS[parameter].unit if parameter in PARAMETERS else "mg/L"


def reading_key(parameter: str) -> str:
    """What is tested, with its unit, as it is typed too: ``nitrite_mg_l``, ``temperature_f``."""
    return "temperature_f" if parameter == "temperature_c" and _now.degrees == "F" else parameter


def reading_name(parameter: str) -> str:
    """What is tested, without its unit: ``nitrite``, ``temperature``."""
    plain = parameter.removesuffix("_mg_l").removesuffix("_c").removesuffix("_us_cm")
    return plain.replace("_", " ")


def say_reading(parameter: str, value: float) -> str:
    """A value of a water test with its unit: ``80.6 F``, ``3 mg/L``, ``6.8``."""
    return f"{reading_number(parameter, value):.3g} {reading_unit(parameter)}".rstrip()


def _number(number: float, decimals: int) -> str:
    return f"{round(number, decimals):.10g}"
