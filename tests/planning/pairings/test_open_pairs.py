"""Which pairs a plan may make."""

from dataclasses import replace

import numpy as np
from pairing_plans import changed, pairs, plan_of, reasons
from plain_colonies import stock


def test_the_limit_itself_is_allowed() -> None:
    """An F equal to the limit is not over it, whatever rounding did."""
    colony = replace(stock(1, 1), kinship=np.array([[0.5, 0.1 + 0.2], [0.1 + 0.2, 0.5]]))
    assert len(plan_of(colony, highest_inbreeding=0.3).pairs) == 1


def test_a_male_serves_no_more_than_he_may() -> None:
    """A male's own capacity goes before the plan's, and who is left out says so."""
    colony = changed(stock(4, 1), M0={"most_females": 2})
    plan = plan_of(colony)
    assert len(plan.pairs) == 2
    out = [one for tag, one in reasons(plan).items() if tag.startswith("F")]
    why = "place: eligible, but the plan had no place: the males open to her serve others: M0"
    assert out == [[why], [why]]


def test_a_running_pairing_is_kept_unless_it_may_be_broken() -> None:
    """Its female is not planned and takes up his capacity; overridden, both are free."""
    colony = changed(stock(3, 1), F0={"in_pairing_with": ("M0",)}, M0={"in_pairing_with": ("F0",)})
    kept = plan_of(colony, most_females=2)
    assert len(kept.pairs) == 1
    assert reasons(kept)["F0"] == ["paired: already with M0"]
    assert len(plan_of(colony, most_females=2, overridden=frozenset({"paired:F0"})).pairs) == 2


def test_doubt_counts_as_expected_or_at_its_worst() -> None:
    """A sire in doubt: by the mean the one is best, at its worst the other, and F shows both."""
    kinship = np.array([[0.5, 0.05, 0.1], [0.05, 0.5, 0.0], [0.1, 0.0, 0.5]])
    worst = kinship.copy()
    worst[0, 1] = worst[1, 0] = 0.25
    colony = replace(stock(1, 2), kinship=kinship, worst_kinship=worst)
    (expected,) = plan_of(colony).pairs
    (cautious,) = plan_of(colony, at_worst=True).pairs
    assert (expected.sire, expected.expected_inbreeding, expected.worst_inbreeding) == (
        "M0",
        0.05,
        0.25,
    )
    assert (cautious.sire, cautious.worst_inbreeding) == ("M1", 0.1)
    assert pairs(plan_of(colony, at_worst=True, highest_inbreeding=0.2)) == {("F0", "M1")}
