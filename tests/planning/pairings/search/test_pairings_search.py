"""The plan is the best there is: against every plan, against greed and against chance."""

import time
from itertools import permutations

import pytest
from herds_alike import families
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_colonies import TODAY, best_of_all, broken, stock, value

from colony.planning.pairings.baselines import baseline_pairs
from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, Effort, PairingRequest, Stock


def pairs_of(plan: ProposedPlan) -> list[tuple[str, str]]:
    """List the pairs of a plan by tag."""
    return [(pair.dam, pair.sire) for pair in plan.pairs]


@pytest.mark.parametrize("seed", range(6))
def test_no_plan_of_eight_dams_and_six_sires_is_better(seed: int) -> None:
    """On random colonies the objective is the least over every plan, tried one by one.

    `tests/benchmarks/pairing_speed.py` does the same on 20.
    """
    colony = stock(8, 6, seed)
    plan = plan_pairings(colony, PairingRequest(most_females=3), today=TODAY)
    assert plan.optimal
    assert plan.objective == pytest.approx(value(colony, pairs_of(plan)), abs=1e-12)
    assert plan.objective <= best_of_all(colony, 8, 3) * (1 + plan.gap) + 2e-6
    assert plan.gap <= 1e-5


def test_with_no_weight_it_is_the_assignment_of_least_coancestry() -> None:
    """One female a male and no weight: minimum coancestry mating as an assignment.

    Sonesson & Meuwissen 2000, Genet. Sel. Evol. 32:231-248; here against all permutations.
    """
    colony = stock(6, 6, seed=4)
    plan = plan_pairings(colony, PairingRequest(most_females=1, weight=0.0), today=TODAY)
    kinship = colony.kinship[:6, 6:]
    least = min(sum(kinship[d, s] for d, s in enumerate(way)) for way in permutations(range(6)))
    assert plan.mean_expected_inbreeding == pytest.approx(least / 6, abs=2e-6)


def test_the_bound_holds_without_the_time_to_reach_it() -> None:
    """Out of time, the best found is given, said to be no more, and its gap covers the best."""
    colony, request = stock(24, 10, seed=1), PairingRequest(most_females=4)
    best = plan_pairings(colony, request, today=TODAY)
    ticks = iter(range(10_000))
    hasty = Effort(seconds=3.0, clock=lambda: float(next(ticks)))
    plan = plan_pairings(colony, request, today=TODAY, effort=hasty)
    assert len(plan.pairs) == 24
    assert not plan.optimal
    assert plan.objective * (1 - plan.gap) <= best.objective + 1e-9
    assert any("best found in the time" in note for note in plan.notes)


@st.composite
def cases(draw: st.DrawFn) -> tuple[Stock, PairingRequest, list[BreedingTank]]:
    """Draw a small colony, request and tanks of any kind that can be asked for."""
    dams, sires = draw(st.integers(1, 6)), draw(st.integers(1, 4))
    colony = stock(dams, sires, draw(st.integers(0, 50)))
    pairs = st.tuples(st.integers(0, dams - 1), st.integers(0, sires - 1)).map(
        lambda pair: (f"F{pair[0]}", f"M{pair[1]}")
    )
    request = PairingRequest(
        litters=draw(st.none() | st.integers(0, 6)),
        wanted=draw(st.just({}) | st.builds(dict, leopoldi=st.integers(0, 4))),
        most_females=draw(st.integers(1, 4)),
        group_size=draw(st.none() | st.integers(1, 3)),
        weight=draw(st.floats(0, 3)),
        highest_inbreeding=draw(st.none() | st.floats(0, 0.3)),
        forbidden_pairs=draw(st.frozensets(pairs, max_size=3)),
        excluded=draw(st.frozensets(st.sampled_from(["F0", "M0", "F1"]), max_size=2)),
    )
    rooms = draw(st.lists(st.tuples(st.floats(1e5, 9e5), st.floats(350, 550)), max_size=3))
    tanks = [BreedingTank(f"T{n}", room, widest) for n, (room, widest) in enumerate(rooms)]
    return colony, request, tanks


@settings(max_examples=40, deadline=None)
@given(cases())
def test_every_plan_keeps_every_constraint_and_beats_greed(
    case: tuple[Stock, PairingRequest, list[BreedingTank]],
) -> None:
    """Nothing asked for is broken, nobody is lost, and greed has fewer litters or worse ones."""
    colony, request, tanks = case
    plan = plan_pairings(colony, request, tanks, today=TODAY)
    where = {pair.sire: pair.tank for pair in plan.pairs}
    assert broken(colony, request, tanks, pairs_of(plan), where) == []
    planned = {tag for pair in pairs_of(plan) for tag in pair}
    out = [one.tag for one in plan.left_out]
    assert sorted([*planned, *out]) == sorted(animal.tag for animal in colony.animals)
    assert all(one.reasons for one in plan.left_out)
    greedy = baseline_pairs(colony, request, tanks, rule="least kin first", today=TODAY)
    assert len(greedy) <= len(plan.pairs)
    if greedy and len(greedy) == len(plan.pairs):
        assert plan.objective <= value(colony, greedy, request.weight) + 2e-6


@pytest.mark.parametrize("litters", [3, 10])
def test_few_litters_of_unrelated_parents_are_proved_best(litters: int) -> None:
    """No kinship is negative, so c'Kc is at least the sum of c_i^2 K_ii: 1 / (4 litters) here."""
    herd = stock(40, 40, kinship=families())
    effort = Effort(seconds=20.0, clock=time.monotonic)
    plan = plan_pairings(herd, PairingRequest(litters=litters), today=TODAY, effort=effort)
    assert plan.optimal
    assert plan.objective == pytest.approx(1 / (4 * litters), rel=1e-4)
