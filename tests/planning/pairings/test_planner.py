"""What a plan answers: the request, the edges, and why each animal is not in it."""

from datetime import timedelta

import numpy as np
from pairing_plans import changed, everybody, pairs, plan_of, reasons
from plain_colonies import TODAY, stock

from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.request import Stock


def test_nobody_at_all_is_an_answer() -> None:
    """An empty colony has an empty plan, and a sentence."""
    plan = plan_of(Stock((), np.zeros((0, 0))))
    assert plan == ProposedPlan(
        notes=("no pair can be made: no female may be paired (there is none)",)
    )


def test_no_male_left_is_an_answer() -> None:
    """Without a male the plan is empty, says why, and gives each its reason."""
    held = {f"M{n}": {"held": "bite"} for n in range(2)}
    plan = plan_of(changed(stock(2, 2), **held))
    assert plan.notes == ("no pair can be made: no male may be paired (2 hold)",)
    assert reasons(plan)["F0"] == ["partner: no male may be paired"]
    assert reasons(plan)["M1"] == ["hold: health hold: bite"]


def test_one_candidate_is_an_answer() -> None:
    """A single female is left out because there is no male."""
    assert reasons(plan_of(stock(1, 0))) == {"F0": ["partner: no male may be paired"]}


def test_everybody_in_isolation_is_an_answer() -> None:
    """All isolated: nobody is planned, and each says until when; overridden, all are."""
    colony = everybody(stock(3, 2), isolated_until=TODAY + timedelta(days=9))
    plan = plan_of(colony)
    assert plan.notes == ("no pair can be made: no female may be paired (3 isolation)",)
    assert set(map(tuple, reasons(plan).values())) == {
        ("isolation: in isolation until 2024-06-10",)
    }
    freed = plan_of(colony, overridden=frozenset({"isolation"}))
    assert len(freed.pairs) == 3
    assert {r.name for pair in freed.pairs for r in pair.reasons} == {"isolation"}


def test_litters_are_counted_by_species_and_line() -> None:
    """Litters wanted of a line are at most so many; those wanted come before others."""
    colony = changed(stock(5, 3), F0={"line": "coal"}, F1={"line": "coal"}, F2={"line": "coal"})
    plan = plan_of(colony, wanted={"coal": 2})
    dams = {dam for dam, _ in pairs(plan)}
    assert len(dams) == 4
    assert len(dams & {"F0", "F1", "F2"}) == 2
    one_male = changed(stock(5, 1), F0={"line": "coal"}, F3={"line": "coal"})
    few = plan_of(one_male, wanted={"coal": 2}, most_females=2)
    assert {dam for dam, _ in pairs(few)} == {"F0", "F3"}
    scarce = plan_of(colony, wanted={"coal": 2}, litters=2)
    assert {dam for dam, _ in pairs(scarce)} <= {"F0", "F1", "F2"}
    assert any(
        "2 litters of coal asked for are those of others" in str(v) for v in reasons(plan).values()
    )


def test_pairs_that_must_be_are_and_must_not_be_are_not() -> None:
    """What is asked for by name is kept, at a cost that is never negative."""
    colony = stock(5, 4, seed=2)
    free = plan_of(colony)
    asked = next((d, s) for d in ("F0", "F1") for s in ("M0", "M1") if (d, s) not in pairs(free))
    forced = plan_of(colony, required_pairs=frozenset({asked}))
    barred = plan_of(colony, forbidden_pairs=frozenset(pairs(free)))
    assert asked in pairs(forced)
    assert not pairs(barred) & pairs(free)
    assert min(forced.objective, barred.objective) >= free.objective - 1e-9
