"""A pair and a number of litters, as they are typed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.pairs import parse_all_wanted, parse_pair, parse_wanted
from colony.refusals.notation import BadTag, UnreadablePair, UnreadableWanted
from colony.refusals.pairings import KindTwice


@pytest.mark.parametrize("text", ["Alma*Bruno", " Alma * Bruno ", "Alma *Bruno"])
def test_a_pair_is_a_dam_a_star_and_a_sire(text: str) -> None:
    """Spaces around the tags do not matter."""
    assert parse_pair(text) == ("Alma", "Bruno")


@pytest.mark.parametrize("text", ["", "*", "Alma", "Alma*", "*Bruno", "A*B*C", "Alma x Bruno"])
def test_what_is_no_pair_is_refused(text: str) -> None:
    """The refusal shows how a pair is written."""
    with pytest.raises(UnreadablePair, match=r"such as Alma\*Bruno") as refused:
        parse_pair(text)
    assert refused.value.exit_code == 2


@pytest.mark.parametrize("text", ["Al=ma*Bruno", "Alma*-x", "Alma*" + "x" * 41])
def test_the_tags_of_a_pair_are_tags(text: str) -> None:
    """What cannot be a tag cannot be in a pair."""
    with pytest.raises(BadTag):
        parse_pair(text)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("leopoldi=4", ("leopoldi", 4)),
        ("P. leopoldi = 2", ("P. leopoldi", 2)),
        ("blue=line=0", ("blue=line", 0)),
    ],
)
def test_a_number_of_litters_stands_after_the_last_equals_sign(
    text: str, wanted: tuple[str, int]
) -> None:
    """So a line may have an equals sign in its name."""
    assert parse_wanted(text) == wanted


@pytest.mark.parametrize(
    "text", ["", "leopoldi", "=4", "leopoldi=", "leopoldi=-1", "leopoldi=four", "a=1.5", "a=99999"]
)
def test_what_is_no_number_of_litters_is_refused(text: str) -> None:
    """The refusal shows how it is written."""
    with pytest.raises(UnreadableWanted, match="write leopoldi=4"):
        parse_wanted(text)


def test_litters_of_one_name_are_asked_for_once() -> None:
    """The second number would silently win."""
    assert parse_all_wanted(["a=1", "b=2"]) == {"a": 1, "b": 2}
    with pytest.raises(KindTwice, match="'a' are asked for twice"):
        parse_all_wanted(["a=1", "b=2", "a=1"])


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing that is typed gets any other error."""
    value_or_refused(lambda: parse_pair(text))
    value_or_refused(lambda: parse_wanted(text))
