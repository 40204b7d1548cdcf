"""The number of a transponder."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.transponders import LARGEST_NATIONAL_ID, parse_transponder
from colony.refusals.notation import BadTransponder


@pytest.mark.parametrize("text", ["999123456789012", "999 1234 5678 9012", "001.000-000 000001"])
def test_a_transponder_keeps_its_fifteen_digits(text: str) -> None:
    """Spaces and dashes of the reader's display are left out, leading zeros are not (ISO 11784)."""
    digits = parse_transponder(text)
    assert digits.isdigit()
    assert len(digits) == 15


@pytest.mark.parametrize(
    "text",
    [
        "",
        "12345",
        "99912345678901x",
        "9991234567890123",
        "000123456789012",
        "٩99123456789012",
        f"999{LARGEST_NATIONAL_ID + 1}",
    ],
)
def test_what_iso_11784_does_not_allow_is_refused(text: str) -> None:
    """15 digits, a country or maker code above 000, and 38 bits for the rest (ISO 11784:1996)."""
    with pytest.raises(BadTransponder):
        parse_transponder(text)


def test_the_largest_identification_of_38_bits_is_taken() -> None:
    """2**38 - 1 is the last national identification code (ISO 11784:1996)."""
    assert parse_transponder(f"999{LARGEST_NATIONAL_ID}") == "999274877906943"


@given(st.text(max_size=15) | st.from_regex(r"[0-9 .-]{13,19}", fullmatch=True))
def test_no_text_does_anything_but_be_a_transponder_or_be_refused(text: str) -> None:
    """Whatever is typed: a number that is read the same again, or wrong use."""
    number = value_or_refused(lambda: parse_transponder(text))
    assert number is None or parse_transponder(number) == number
