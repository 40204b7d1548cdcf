"""Lengths, masses and volumes as a breeder writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.measures import (
    LENGTH,
    MASS,
    VOLUME,
    Quantity,
    parse_length_mm,
    parse_mass_g,
    parse_measure,
    parse_volume_l,
)
from colony.refusals.notation import (
    MeasureOutOfRange,
    ThousandsOrDecimals,
    UnknownUnit,
    UnreadableMeasure,
)


@pytest.mark.parametrize(
    ("text", "width_mm"),
    [
        *[("12.5cm", 125), ("12,5 cm", 125), ("125mm", 125), ("1.2m", 1200), ("12.5", 125)],
        # 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
        *[("5in", 127), ('5"', 127), ("5.5 IN", 140)],
    ],
)
def test_a_length_is_kept_in_whole_millimetres(text: str, width_mm: int) -> None:
    """Metric or inches, a comma for a point, the book's unit where none is written."""
    assert parse_length_mm(text) == width_mm


def test_a_bare_number_has_the_unit_of_the_book() -> None:
    """A book in inches reads 5 as 5 in; a unit that is written wins."""
    assert parse_length_mm("5", "in") == 127
    assert parse_length_mm("5cm", "in") == 50


def test_mass_and_volume_convert_by_their_definitions() -> None:
    """1 lb = 453.59237 g and 1 US gallon = 3.785411784 L exactly (NIST Handbook 44, app. C)."""
    assert parse_mass_g("2lb") == 907
    assert parse_mass_g("1.2kg") == 1200
    assert parse_volume_l("200gal") == 757
    assert parse_volume_l("1.5 m3") == 1500


@pytest.mark.parametrize(
    "text", ["", "wide", "-5cm", "5 cm 3", "½", "\u0665cm", "nan", "inf", "5''"]
)
def test_what_has_no_number_is_refused(text: str) -> None:
    """One number and at most one unit."""
    with pytest.raises(UnreadableMeasure):
        parse_length_mm(text)


@pytest.mark.parametrize("text", ["5ft", "5kg", "5cm3", "1e3"])
def test_a_unit_of_something_else_is_refused(text: str) -> None:
    """The refusal names the units that are taken."""
    with pytest.raises(UnknownUnit, match="mm, cm, m, in"):
        parse_length_mm(text)


@pytest.mark.parametrize("text", ["0", "0.01mm", "21m", "999999999"])
def test_a_length_that_no_house_holds_is_refused(text: str) -> None:
    """Nothing, or more than 20 m, is a slip of the key."""
    with pytest.raises(MeasureOutOfRange):
        parse_length_mm(text)


@pytest.mark.parametrize("text", ["1,500g", "1,000"])
def test_a_comma_before_three_digits_is_not_guessed_at(text: str) -> None:
    """1,500 is fifteen hundred in one country and one and a half in another."""
    with pytest.raises(ThousandsOrDecimals, match=text.replace(",", "")):
        parse_mass_g(text)


@given(st.text(max_size=12), st.sampled_from([LENGTH, MASS, VOLUME]))
def test_no_text_does_anything_but_measure_or_be_refused(text: str, quantity: Quantity) -> None:
    """Whatever is typed: a whole number in the sane range, or a refusal of wrong use."""
    bare = next(iter(quantity.units))
    stored = value_or_refused(lambda: parse_measure(text, quantity, bare))
    assert stored is None or 0 < stored <= quantity.most
