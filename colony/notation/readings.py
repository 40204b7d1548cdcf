"""How a breeder writes a water test: ``ph=6.8``, ``nitrate_mg_l=25``."""

import re
from dataclasses import dataclass

from colony.notation.care import PARAMETERS, UNIONISED
from colony.refusals.water import NoSuchParameter, UnreadableTest, ValueOutOfRange

_ALSO = {
    "temperature": "temperature_c",
    "temperature_f": "temperature_c",
    "temp": "temperature_c",
    "ammonia_n": "ammonia_mg_l",
    "ammonia_nh3": "ammonia_nh3_mg_l",
    "chlorine": "chlorine_mg_l",
    "nitrite": "nitrite_mg_l",
    "nitrate": "nitrate_mg_l",
    "oxygen": "oxygen_mg_l",
    "conductivity": "conductivity_us_cm",
    "gh": "hardness_dgh",
    "kh": "alkalinity_dkh",
}


AMMONIA_AS = {"N": "ammonia_mg_l", "NH3": "ammonia_nh3_mg_l"}
"""What ``ammonia`` alone is, by the terms in which the test kit of the house speaks."""

_NAMED_DEGREES = {"temperature_c": "C", "temperature_f": "F"}
"""Which degrees a name says by itself."""

_DEGREES = re.compile(r"(.*\d)\s*°?\s*([CF])", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True)
class Terms:
    """In which terms the house writes its tests: the unit of a temperature, and ammonia as."""

    degrees: str = "C"
    ammonia_as: str = "N"


USUAL_TERMS = Terms()


def names_ammonia_alone(text: str) -> bool:
    """Whether a value is of ammonia and does not say whether as N or as NH3."""
    return text.partition("=")[0].strip().casefold() == "ammonia"


def celsius(degrees_f: float) -> float:
    """Degrees Celsius of degrees Fahrenheit."""
    return (degrees_f - 32) / 1.8


def parse_bound(parameter: str, bound: float | None, terms: Terms = USUAL_TERMS) -> float | None:
    """A bound of a limit as it is stored: of a temperature in C, though it is typed in F."""
    in_f = parameter == "temperature_c" and terms.degrees == "F"
    return round(celsius(bound), 2) if in_f and bound is not None else bound


def parse_parameter(text: str, *, with_unionised: bool = False, terms: Terms = USUAL_TERMS) -> str:
    """Read the name of something that is tested, by its own or its short name.

    Raises
    ------
    NoSuchParameter
    """
    plain = text.strip().casefold()
    name = _ALSO.get(plain, plain)
    if plain == "ammonia":
        name = AMMONIA_AS[terms.ammonia_as]
    known = [*PARAMETERS, UNIONISED] if with_unionised else list(PARAMETERS)
    if name not in known:
        raise NoSuchParameter(text, known)
    return name


def parse_reading(text: str, terms: Terms = USUAL_TERMS) -> tuple[str, float]:
    """Read one value of a test, ``NAME=NUMBER``; a comma is taken as a decimal point.

    A temperature without a unit is in that of the house: ``temperature=80`` or ``80F``.

    Raises
    ------
    UnreadableTest, NoSuchParameter, ValueOutOfRange
    """
    name, equals, number = text.partition("=")
    if not equals:
        raise UnreadableTest(text)
    parameter = parse_parameter(name, terms=terms)
    plain, degrees = number.strip().replace(",", "."), "C"
    if parameter == "temperature_c":
        said = _DEGREES.fullmatch(plain)
        named = _NAMED_DEGREES.get(name.strip().casefold(), terms.degrees)
        plain, degrees = (said[1], said[2].upper()) if said else (plain, named)
    try:
        value = float(plain)
    except ValueError as wrong:
        raise UnreadableTest(text) from wrong
    if degrees == "F":
        value = round(celsius(value), 2)
    sane = PARAMETERS[parameter]
    if not sane.least <= value <= sane.most:
        raise ValueOutOfRange(parameter, number, sane.least, sane.most, sane.unit)
    return parameter, value
