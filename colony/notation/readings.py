"""How a breeder writes a water test: ``ph=6.8``, ``nitrate_mg_l=25``."""

from colony.notation.care import PARAMETERS, UNIONISED
from colony.refusals.water import NoSuchParameter, UnreadableTest, ValueOutOfRange

_ALSO = {
    "temperature": "temperature_c",
    "temp": "temperature_c",
    "ammonia": "ammonia_mg_l",
    "nitrite": "nitrite_mg_l",
    "nitrate": "nitrate_mg_l",
    "oxygen": "oxygen_mg_l",
    "conductivity": "conductivity_us_cm",
    "gh": "hardness_dgh",
    "kh": "alkalinity_dkh",
}


def parse_parameter(text: str, *, with_unionised: bool = False) -> str:
    """Read the name of something that is tested, by its own or its short name.

    Raises
    ------
    NoSuchParameter
    """
    plain = text.strip().casefold()
    name = _ALSO.get(plain, plain)
    known = [*PARAMETERS, UNIONISED] if with_unionised else list(PARAMETERS)
    if name not in known:
        raise NoSuchParameter(text, known)
    return name


def parse_reading(text: str) -> tuple[str, float]:
    """Read one value of a test, ``NAME=NUMBER``; a comma is taken as a decimal point.

    Raises
    ------
    UnreadableTest, NoSuchParameter, ValueOutOfRange
    """
    name, equals, number = text.partition("=")
    if not equals:
        raise UnreadableTest(text)
    parameter = parse_parameter(name)
    try:
        value = float(number.replace(",", "."))
    except ValueError as wrong:
        raise UnreadableTest(text) from wrong
    sane = PARAMETERS[parameter]
    if not sane.least <= value <= sane.most:
        raise ValueOutOfRange(parameter, number, sane.least, sane.most, sane.unit)
    return parameter, value
