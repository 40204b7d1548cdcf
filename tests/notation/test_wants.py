"""What a buyer asks for, as it is typed."""

import pytest

from colony.notation.pups import PupCount
from colony.notation.wants import Want, parse_want, say_kinship
from colony.refusals.base import WrongUse
from colony.refusals.orders import UnreadableWant, WantTwice


@pytest.mark.parametrize(
    ("text", "want"),
    [
        ("2F1M motoro, 12cm, unrelated", Want(PupCount(2, 1, 0), "motoro", 120, 0.0)),
        ("2F 1M motoro", Want(PupCount(2, 1, 0), "motoro")),
        ("3 leopoldi", Want(PupCount(0, 0, 3), "leopoldi")),
        ("1f", Want(PupCount(1, 0, 0))),
        ("1M black diamond; 6in; half sibs", Want(PupCount(0, 1, 0), "black diamond", 152, 0.125)),
        ("2F motoro, kin 0.03, 250 each", Want(PupCount(2), "motoro", None, 0.03, 25000)),
        ("2F motoro, 99.50 EUR each", Want(PupCount(2), "motoro", None, None, 9950)),
        ("2F motoro, 99 EUR", Want(PupCount(2), "motoro", None, None, 9900)),
        ("1F motoro, 12", Want(PupCount(1), "motoro", 120)),
        ("1F motoro, >= 12,5cm", Want(PupCount(1), "motoro", 125)),
    ],
)
def test_a_want_is_read(text: str, want: Want) -> None:
    """How many of each sex, of what, how wide, how related, for how much."""
    assert parse_want(text) == want


@pytest.mark.parametrize(
    "text",
    ["", "motoro", "0F motoro", "2F2F motoro", "2F motoro, blue", "99F", "2F motoro, 400 km"],
)
def test_what_says_no_want_is_refused(text: str) -> None:
    """And the sentence says where, and shows how it is written."""
    with pytest.raises(UnreadableWant, match="2F1M motoro, 12cm, unrelated") as refused:
        parse_want(text)
    assert isinstance(refused.value, WrongUse)


def test_a_want_says_nothing_twice() -> None:
    """Two widths are a slip of the hand."""
    with pytest.raises(WantTwice):
        parse_want("1F motoro, 12cm, 14cm")


@pytest.mark.parametrize("kinship", [0.0, 0.0625, 0.125, 0.25, 0.03])
def test_what_is_said_of_kinship_is_read_again(kinship: float) -> None:
    """In a word where there is one."""
    assert parse_want(f"1F motoro, {say_kinship(kinship)}").kinship == kinship
