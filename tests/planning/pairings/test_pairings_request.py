"""What a request may weigh."""

from dataclasses import replace

import numpy as np
import pytest
from pairing_plans import pairs, plan_of
from plain_colonies import stock

from colony.planning.pairings.request import rare_share


def test_under_represented_founders_are_kept_when_wished() -> None:
    """Of two equal males the one with the rare founder's genes is taken."""
    share = rare_share(np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]]), np.array([0.9, 0.1]))
    assert share.tolist() == pytest.approx([0.0, 0.0, 0.8])
    kinship = np.array([[0.5, 0.0, 0.01], [0.0, 0.5, 0.0], [0.01, 0.0, 0.5]])
    colony = replace(stock(1, 2), kinship=kinship, rare=share)
    assert pairs(plan_of(colony)) == {("F0", "M0")}
    assert pairs(plan_of(colony, founder_weight=1.0)) == {("F0", "M1")}
