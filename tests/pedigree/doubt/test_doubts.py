"""What may be said of a doubtful sire, and of founders that are related."""

import pytest

from colony.pedigree.doubt.doubts import Doubt, FounderKinship


@pytest.mark.parametrize(
    ("sires", "shares"),
    [((), ()), ((1,), (0.5, 0.5)), ((1, 2), (0.5, 0.4)), ((1, 2), (1.5, -0.5))],
)
def test_shares_that_are_no_probabilities_are_no_doubt(
    sires: tuple[int, ...], shares: tuple[float, ...]
) -> None:
    """One for each sire, none below 0, in all 1."""
    with pytest.raises(ValueError, match="share"):
        Doubt((0,), sires, shares)


def test_a_sire_named_twice_has_both_shares_and_one_without_a_share_is_none() -> None:
    """The possible sires are those that can be it, each once."""
    assert Doubt((0,), (4, 5, 4, 6), (0.2, 0.5, 0.3, 0.0)).possible == ((4, 0.5), (5, 0.5))


@pytest.mark.parametrize(
    ("kinship", "inbreeding"), [(0.25, 0.0), (0.0, 0.0), (0.5625, 0.5), (1.0, 1.0)]
)
def test_founders_may_be_as_related_as_one_stock_makes_them(
    kinship: float, inbreeding: float
) -> None:
    """Full sibs of unrelated parents have 1/4; of one inbred line with F 1 it is 1.

    Wright 1922, Coefficients of inbreeding and relationship, Am. Nat. 56:330-338.
    """
    assert FounderKinship((0, 1), kinship, inbreeding).kinship == kinship


@pytest.mark.parametrize(
    ("kinship", "inbreeding"), [(0.26, 0.0), (-0.1, 0.0), (0.5, 0.2), (1.1, 2.0)]
)
def test_founders_more_related_than_that_are_refused(kinship: float, inbreeding: float) -> None:
    """Beyond ((1 + F) / 2) squared no two animals go."""
    with pytest.raises(ValueError, match="cannot have a kinship"):
        FounderKinship((0, 1), kinship, inbreeding)
