"""Required pairs that cannot be are refused, with the reason."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from pairing_plans import changed, plan_of
from plain_colonies import stock

from colony.planning.pairings.request import BreedingTank
from colony.refusals.pairings import CannotBePaired, PairsDoNotFit


@pytest.mark.parametrize(
    ("pair", "facts", "why"),
    [
        (("F0", "M0"), {"held": "bite"}, "F0: health hold: bite"),
        (("F0", "M0"), {"species": "motoro"}, "a cross of species"),
        (("M0", "F0"), {}, "a dam is a female and a sire a male"),
        (("F0", "Zora"), {}, "Zora is not among the animals"),
    ],
)
def test_a_pair_that_must_be_and_may_not_is_refused(
    pair: tuple[str, str], facts: dict[str, Any], why: str
) -> None:
    """The refusal names the pair and what stands against it."""
    with pytest.raises(CannotBePaired, match=why):
        plan_of(changed(stock(2, 2), F0=facts), required_pairs=frozenset({pair}))


def test_a_pair_over_the_limit_is_refused_with_its_f() -> None:
    """The hard limit holds for pairs that are asked for too."""
    colony = replace(stock(1, 1), kinship=np.array([[0.5, 0.25], [0.25, 0.5]]))
    with pytest.raises(CannotBePaired, match=r"F of the pups would be 0\.2500, over the limit"):
        plan_of(colony, required_pairs=frozenset({("F0", "M0")}), highest_inbreeding=0.125)


def test_pairs_that_cannot_be_together_are_refused() -> None:
    """Two sires for a dam, too many females, too few litters or no tank: a sentence each."""
    both = frozenset({("F0", "M0"), ("F0", "M1")})
    two = frozenset({("F0", "M0"), ("F1", "M0")})
    with pytest.raises(PairsDoNotFit, match="F0 can have 1"):
        plan_of(stock(2, 2), required_pairs=both)
    with pytest.raises(PairsDoNotFit, match="M0 can have 1"):
        plan_of(stock(2, 2), required_pairs=two, most_females=1)
    with pytest.raises(PairsDoNotFit, match="1 litters are asked for"):
        plan_of(stock(2, 2), required_pairs=two, litters=1)
    with pytest.raises(PairsDoNotFit, match="the tanks"):
        plan_of(stock(2, 2), BreedingTank("T0", 3.5e5), required_pairs=two)
