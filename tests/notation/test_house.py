"""How a house writes what it measures.

1 in = 25.4 mm, 1 lb = 453.59237 g and the US gallon of 231 cubic inches are exact by
definition: NIST Special Publication 811 (2008), Guide for the Use of the International System
of Units, Appendix B; so is t/C = (t/F - 32) / 1.8.
"""

from collections.abc import Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.notation.house import (
    HouseUnits,
    length_number,
    reading_key,
    reading_number,
    reading_unit,
    say_growth,
    say_length,
    say_mass,
    say_reading,
    say_volume,
    show_length,
    show_mass,
    units_now,
    use_units,
    volume_number,
)
from colony.notation.measures import (
    LENGTH,
    MASS,
    VOLUME,
    parse_length_mm,
    parse_mass_g,
    parse_volume_l,
)
from colony.notation.readings import celsius

AMERICAN = HouseUnits("in", "lb", "gal", "F")


@pytest.fixture(autouse=True)
def _metric_again() -> Iterator[None]:
    before = units_now()
    yield
    use_units(before)


def test_a_house_writes_metric_where_it_says_nothing() -> None:
    """The usual units are those of the settings where none is set."""
    use_units(HouseUnits())
    said = (say_length(260), say_length(267), say_mass(450), say_volume(800), say_growth(-4))
    assert said == ("26 cm", "26.7 cm", "450 g", "800 L", "-4 mm")
    assert say_reading("temperature_c", 27.5) == "27.5 C"
    assert reading_key("temperature_c") == "temperature_c"


def test_a_house_writes_inches_pounds_gallons_and_fahrenheit() -> None:
    """254 mm are 10 in, 4535.9237 g 10 lb, 231 cubic inches a gallon, 25 C 77 F."""
    use_units(AMERICAN)
    assert (say_length(254), show_length(254), length_number(254)) == ("10 in", "10.0 in", "10")
    assert (say_mass(4535.9237), show_mass(2268), say_mass(85)) == ("10 lb", "5 lb", "3 oz")
    assert say_volume(231 * 0.0254**3 * 1000 * 200) == "200 gal"
    assert volume_number(3.785411784) == "1"
    assert (say_growth(25.4), say_growth(25.4, signed=True)) == ("1 in", "+1 in")
    assert say_reading("temperature_c", 25) == "77 F"
    assert (reading_key("temperature_c"), reading_unit("temperature_c")) == ("temperature_f", "F")
    assert say_reading("nitrite_mg_l", 3) == "3 mg/L"


def test_what_is_not_known_is_a_dash_or_nothing() -> None:
    """Nothing measured is not zero."""
    assert (show_length(None), show_mass(None)) == ("-", None)


@given(st.integers(1, 19_990), st.sampled_from(["mm", "cm", "in"]))
def test_a_length_is_read_as_it_was_written(length_mm: int, unit: str) -> None:
    """What is written is read again to within the digit that is written."""
    use_units(HouseUnits(length=unit))
    for said in (say_length(length_mm), show_length(length_mm)):
        if float(said.split()[0]):
            assert abs(parse_length_mm(said) - length_mm) <= LENGTH.units[unit] / 20 + 1


@given(st.integers(5, 499_000), st.sampled_from(["g", "kg", "oz", "lb"]))
def test_a_mass_is_read_as_it_was_written(mass_g: int, unit: str) -> None:
    """The same of masses; kilograms and pounds have two decimals."""
    use_units(HouseUnits(mass=unit))
    said = say_mass(mass_g)
    if float(said.split()[0]):
        assert abs(parse_mass_g(said) - mass_g) <= MASS.units[unit] / 20 + 1


@given(st.integers(4, 999_000), st.sampled_from(["l", "gal"]))
def test_a_volume_is_read_as_it_was_written(volume_l: int, unit: str) -> None:
    """The same of volumes, which are whole litres or gallons."""
    use_units(HouseUnits(volume=unit))
    assert abs(parse_volume_l(say_volume(volume_l)) - volume_l) <= VOLUME.units[unit] / 2 + 1


@given(st.floats(0, 50))
def test_a_temperature_goes_there_and_back(degrees_c: float) -> None:
    """Fahrenheit as it is written is the same temperature."""
    use_units(AMERICAN)
    assert abs(celsius(reading_number("temperature_c", degrees_c)) - degrees_c) <= 0.05 / 1.8 + 1e-9
