"""Possible sires and how likely each is."""

from math import isclose

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.shares import SireShare, parse_sires, show_sires
from colony.refusals.notation import BadTag, SharesDoNotSum, SireTwice, UnreadableShare


def test_one_sire_alone_is_certain() -> None:
    """A tag without a share is the sire."""
    assert parse_sires(["Bruno"]) == (SireShare("Bruno", 1.0),)


def test_sires_without_shares_are_equally_likely() -> None:
    """Two males in the tank and nothing seen: half each."""
    assert [sire.share for sire in parse_sires(["Bruno", "Caro"])] == [0.5, 0.5]


@pytest.mark.parametrize(
    "texts",
    [["Bruno=0.7", "Caro=0.3"], ["Bruno=70%", "Caro=30%"], ["Bruno=,7", "Caro=.3"]],
)
def test_shares_are_fractions_or_percent(texts: list[str]) -> None:
    """0.7, .7, 0,7 and 70% are the same."""
    assert parse_sires(texts) == (SireShare("Bruno", 0.7), SireShare("Caro", 0.3))


def test_thirds_of_two_digits_are_made_whole() -> None:
    """0.33 three times is what a breeder writes; what is kept sums to 1."""
    shares = parse_sires(["A=0.33", "B=0.33", "C=0.33"])
    assert isclose(sum(share.share for share in shares), 1)


def test_somebody_unknown_may_be_the_sire() -> None:
    """The word unknown stands for a male that is not in the book, in any case."""
    assert parse_sires(["Bruno=0.8", "Unknown=0.2"])[1] == SireShare(None, 0.2)


@pytest.mark.parametrize("text", ["Bruno=", "Bruno=x", "Bruno=2", "Bruno=0", "Bruno=-1", "A=nan"])
def test_what_is_no_share_is_refused(text: str) -> None:
    """More than nothing and at most 1."""
    with pytest.raises(UnreadableShare):
        parse_sires([text, "Caro=0.5"])


def test_shares_stand_at_all_sires_or_at_none() -> None:
    """Which of the others would take the rest cannot be guessed."""
    with pytest.raises(UnreadableShare, match="Caro"):
        parse_sires(["Bruno=0.5", "Caro"])


@pytest.mark.parametrize("texts", [["A=0.5", "B=0.3"], ["A=0.9", "B=0.9"], ["A=0.5"]])
def test_shares_that_do_not_sum_to_one_are_refused(texts: list[str]) -> None:
    """The refusal says what they sum to."""
    with pytest.raises(SharesDoNotSum, match=r"0\.8|1\.8|0\.5"):
        parse_sires(texts)


def test_a_sire_stands_once_whatever_its_case() -> None:
    """Bruno and bruno are one animal."""
    with pytest.raises(SireTwice):
        parse_sires(["Bruno", "bruno"])


def test_a_sire_has_a_tag_that_can_be_one() -> None:
    """The tag before the share is held to what a tag is."""
    with pytest.raises(BadTag):
        parse_sires(["=0.5", "Caro=0.5"])


@given(st.lists(st.integers(1, 1000), min_size=2, max_size=5))
def test_sires_are_read_as_they_are_written(weights: list[int]) -> None:
    """Writing shares to four digits and reading them again changes no more than rounding."""
    sires = [SireShare(f"S{n}", w / sum(weights)) for n, w in enumerate(weights)]
    for sire, again in zip(sires, parse_sires(show_sires(sires)), strict=True):
        assert sire.tag == again.tag
        assert isclose(sire.share, again.share, abs_tol=0.001)


@given(st.lists(st.text(max_size=10), max_size=3))
def test_no_texts_do_anything_but_name_sires_or_be_refused(texts: list[str]) -> None:
    """Whatever is typed: shares that sum to 1, or a refusal of wrong use."""
    sires = value_or_refused(lambda: parse_sires(texts))
    assert not sires or isclose(sum(sire.share for sire in sires), 1)
