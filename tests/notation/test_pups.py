"""Litters by sex, as a breeder writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.pups import MOST_PUPS, PupCount, parse_pups
from colony.refusals.notation import TooManyPups, UnreadablePups


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("2F3M1U", PupCount(2, 3, 1)),
        ("2f, 3m + 1u", PupCount(2, 3, 1)),
        ("3M2F", PupCount(2, 3, 0)),
        ("4", PupCount(0, 0, 4)),
        ("0", PupCount()),
        ("0F2M", PupCount(0, 2, 0)),
    ],
)
def test_a_litter_is_counted_by_sex(text: str, count: PupCount) -> None:
    """In any order, with or without what stands between; a bare number is not sexed."""
    assert parse_pups(text) == count


@pytest.mark.parametrize("text", ["", "F", "2F2F", "1 2F", "2X", "2F 3", "-1F", "2F3M!"])
def test_what_is_no_litter_is_refused(text: str) -> None:
    """A sex twice, a number without one beside one with, a letter that is no sex."""
    with pytest.raises(UnreadablePups):
        parse_pups(text)


def test_more_pups_than_any_litter_has_are_refused() -> None:
    """22F for 2F is a slip of the key; 21 is the largest litter on record (P. motoro, CITES CoP17)."""
    assert parse_pups("21U").total == 21
    with pytest.raises(TooManyPups):
        parse_pups("22F9M")


@given(st.integers(0, 10), st.integers(0, 10), st.integers(0, 10))
def test_a_litter_is_read_as_it_is_written(females: int, males: int, unknown: int) -> None:
    """Writing a count and reading it again changes nothing; every pup has its letter."""
    count = PupCount(females, males, unknown)
    assert parse_pups(str(count)) == count
    assert len(count.sexes()) == count.total


@given(st.text(max_size=12) | st.from_regex(r"[0-9FMUfmu ,+]{0,8}"))
def test_no_text_does_anything_but_count_or_be_refused(text: str) -> None:
    """Whatever is typed: a sane count, or a refusal of wrong use."""
    count = value_or_refused(lambda: parse_pups(text))
    assert count is None or 0 <= count.total <= MOST_PUPS
