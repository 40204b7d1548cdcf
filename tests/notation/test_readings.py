"""Water tests as they are typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.readings import parse_parameter, parse_reading
from colony.refusals.water import NoSuchParameter, UnreadableTest, ValueOutOfRange


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("ph=6.8", ("ph", 6.8)),
        ("ph=6,8", ("ph", 6.8)),
        ("PH = 7", ("ph", 7)),
        ("nitrate=25", ("nitrate_mg_l", 25)),
        ("nitrate_mg_l=0", ("nitrate_mg_l", 0)),
        ("temp=27.5", ("temperature_c", 27.5)),
        ("GH=3", ("hardness_dgh", 3)),
    ],
)
def test_a_reading_is_a_name_and_a_number(text: str, reading: tuple[str, float]) -> None:
    """Short names of the trade, any case, a comma or a point."""
    assert parse_reading(text) == reading


@pytest.mark.parametrize("text", ["ph", "ph=", "ph=acid", "=7", "ph=1.000,5", "ph=7=8"])
def test_what_is_no_reading_is_refused(text: str) -> None:
    """Wrong use, with what would be right."""
    with pytest.raises((UnreadableTest, NoSuchParameter)):
        parse_reading(text)


@pytest.mark.parametrize("name", PARAMETERS)
def test_both_ends_of_what_is_sane_are_taken_and_nothing_beyond(name: str) -> None:
    """A missing point (ph=68) does not become a value; nor does nan or infinity."""
    sane = PARAMETERS[name]
    for value in (sane.least, sane.most):
        assert parse_reading(f"{name}={value}") == (name, value)
    for beyond in (sane.least - 1, sane.most + 1, "nan", "inf"):
        with pytest.raises(ValueOutOfRange):
            parse_reading(f"{name}={beyond}")


def test_a_limit_can_be_set_on_what_is_computed_but_it_cannot_be_measured() -> None:
    """Un-ionised ammonia follows from ammonia, pH and temperature."""
    assert parse_parameter(UNIONISED, with_unionised=True) == UNIONISED
    with pytest.raises(NoSuchParameter):
        parse_reading(f"{UNIONISED}=0.01")


@given(st.text(max_size=20) | st.from_regex(r"(ph|nitrate|kh)=[0-9.,e-]{1,8}", fullmatch=True))
def test_no_text_does_anything_but_be_a_reading_or_be_refused(text: str) -> None:
    """Whatever is typed: a sane value of a known parameter, or wrong use."""
    reading = value_or_refused(lambda: parse_reading(text))
    if reading is not None:
        name, value = reading
        assert PARAMETERS[name].least <= value <= PARAMETERS[name].most
