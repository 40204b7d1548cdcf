"""The plan is the best there is: against every plan, against greed and against chance."""

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from plain_colonies import TODAY, best_of_all, broken, every_plan, stock, value

from colony.planning.arrays import Floats
from colony.planning.pairings.baselines import Rule, baseline_pairs
from colony.planning.pairings.open_pairs import open_pairs
from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, Effort, PairingRequest, Stock
from colony.planning.pairings.search import count as pairing_count
from colony.planning.pairings.search.model import Aim, PairingModel
from colony.planning.pairings.search.objective import own_part
from colony.planning.pairings.search.problem import pairing_problem
from colony.planning.solver.highs import relax


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


@pytest.mark.parametrize("seed", range(4))
def test_pairs_left_out_at_first_are_let_in(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Begun with the cheapest pair of each parent alone, the search still finds the best."""
    monkeypatch.setattr(pairing_count, "NEAR_FOR_DAM", 1)
    monkeypatch.setattr(pairing_count, "NEAR_FOR_SIRE", 1)
    colony = stock(7, 5, seed)
    plan = plan_pairings(colony, PairingRequest(most_females=2), today=TODAY)
    assert plan.objective == pytest.approx(best_of_all(colony, 7, 2), abs=2e-6)


@pytest.mark.parametrize("seed", range(3))
def test_a_price_is_zero_where_shares_are_used_and_never_below(seed: int) -> None:
    """Prices are reduced costs: complementary slackness of linear programming holds."""
    pairs = open_pairs(stock(12, 6, seed), PairingRequest(most_females=3), (), TODAY)
    problem = pairing_problem(pairs)
    even = np.repeat([1.0, 2.0], [12, 6])
    model = PairingModel(
        problem, np.arange(len(problem.required)), Aim(12), [even, even[::-1].copy()]
    )
    answer = relax(model.linear, seconds=10.0)
    assert answer is not None
    price = model.price(answer.duals)
    shares = answer.values[model.pair]
    between = (shares > 1e-6) & (shares < 1 - 1e-6)
    assert price[between] == pytest.approx(np.zeros(between.sum()), abs=1e-6)
    assert price[shares <= 1e-6].min() >= -1e-6
    assert price[shares >= 1 - 1e-6].max(initial=0.0) <= 1e-6


@pytest.mark.parametrize("weight", [0.0, 0.25, 4.0])
@pytest.mark.parametrize("seed", range(3))
def test_the_weight_is_kept(seed: int, weight: float) -> None:
    """Whatever the mean kinship weighs against inbreeding, the best plan is found."""
    colony = stock(6, 4, seed)
    plan = plan_pairings(colony, PairingRequest(most_females=2, weight=weight), today=TODAY)
    assert plan.objective == pytest.approx(best_of_all(colony, 6, 2, weight), abs=2e-6)


def test_with_no_weight_it_is_the_assignment_of_least_coancestry() -> None:
    """One female a male and no weight: minimum coancestry mating as an assignment.

    Sonesson & Meuwissen 2000, Genet. Sel. Evol. 32:231-248; here against all permutations.
    """
    colony = stock(6, 6, seed=4)
    plan = plan_pairings(colony, PairingRequest(most_females=1, weight=0.0), today=TODAY)
    kinship = colony.kinship[:6, 6:]
    least = min(sum(kinship[d, s] for d, s in enumerate(way)) for way in permutations(range(6)))
    assert plan.mean_expected_inbreeding == pytest.approx(least / 6, abs=2e-6)


@pytest.mark.parametrize("seed", range(3))
def test_chosen_litters_are_the_best_ones(seed: int) -> None:
    """When fewer litters than dams are asked for, dams and sires are chosen together."""
    colony = stock(5, 3, seed)
    plan = plan_pairings(colony, PairingRequest(litters=3, most_females=2), today=TODAY)
    least = min(
        value(colony, [(f"F{d}", f"M{s}") for d, s in pairs])
        for pairs in every_plan(5, 3)
        if len(pairs) == 3 and max(np.bincount([s for _, s in pairs])) <= 2
    )
    assert plan.objective == pytest.approx(least, abs=2e-6)


@pytest.mark.parametrize("seed", range(6))
def test_groups_in_tanks_are_the_best_ones(seed: int) -> None:
    """With tanks: as many litters as fit any way, and of those plans the best."""
    colony = stock(4, 3, seed)
    chance = np.random.default_rng(seed)
    tanks = [BreedingTank(f"T{n}", float(chance.integers(260, 640)) * 1e3, 515.0) for n in range(3)]
    plan = plan_pairings(colony, PairingRequest(), tanks, today=TODAY)
    most, least = _best_in_tanks(colony, tanks)
    assert len(plan.pairs) == most
    assert plan.objective == pytest.approx(least, abs=2e-6)


def _best_in_tanks(colony: Stock, tanks: list[BreedingTank]) -> tuple[int, float]:
    fitting = []
    for numbers in every_plan(4, 3):
        pairs = [(f"F{d}", f"M{s}") for d, s in numbers]
        sires = sorted({sire for _, sire in pairs})
        for order in permutations([tank.code for tank in tanks], len(sires)):
            where: dict[str, str | None] = dict(zip(sires, order, strict=True))
            if pairs and not broken(colony, PairingRequest(), tanks, pairs, where):
                fitting.append((-len(pairs), value(colony, pairs)))
                break
    count, least = min(fitting)
    return -count, least


@pytest.mark.parametrize("rule", ["least kin first", "random"])
@pytest.mark.parametrize("seed", range(4))
def test_no_rule_of_thumb_is_better(seed: int, rule: Rule) -> None:
    """On 24 dams and 10 sires neither greed nor chance comes below the plan."""
    colony, request = stock(24, 10, seed), PairingRequest(most_females=4)
    plan = plan_pairings(colony, request, today=TODAY)
    rival = baseline_pairs(colony, request, rule=rule, today=TODAY, seed=seed)
    assert len(rival) == len(plan.pairs) == 24
    assert plan.optimal
    assert plan.objective <= value(colony, rival) + 1e-9


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


@given(st.integers(2, 12), st.integers(0, 10_000), st.booleans())
def test_what_is_split_off_kinship_leaves_no_dips(count: int, seed: int, odd: bool) -> None:
    """Kinship less its diagonal part stays positive semidefinite: tangents lie below it.

    That holds too for kinships given by hand that no pedigree can have.
    """
    kinship = _contradicting(stock(count, 1, seed)) if odd else stock(count, 1, seed).kinship
    rest = kinship - np.diag(own_part(kinship))
    assert np.linalg.eigvalsh(rest)[0] >= -1e-9


@pytest.mark.parametrize("seed", range(3))
def test_founders_whose_kinships_contradict_each_other_do_no_harm(seed: int) -> None:
    """The plan is still the best, and the bound still a bound."""
    colony = stock(6, 4, seed)
    colony = replace(colony, kinship=_contradicting(colony))
    plan = plan_pairings(colony, PairingRequest(most_females=2), today=TODAY)
    best = best_of_all(colony, 6, 2)
    assert plan.objective * (1 - plan.gap) - 2e-6 <= best <= plan.objective + 1e-12


def _contradicting(colony: Stock) -> Floats:
    """Two animals close to a third and not to each other, which no pedigree can give."""
    kinship = colony.kinship.copy()
    kinship[0, -1] = kinship[-1, 0] = kinship[1, -1] = kinship[-1, 1] = 0.6
    kinship[0, 1] = kinship[1, 0] = 0.0
    return kinship


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
    assert sorted([*planned, *out]) == sorted(one.tag for one in colony.animals)
    assert all(one.reasons for one in plan.left_out)
    greedy = baseline_pairs(colony, request, tanks, rule="least kin first", today=TODAY)
    assert len(greedy) <= len(plan.pairs)
    if greedy and len(greedy) == len(plan.pairs):
        assert plan.objective <= value(colony, greedy, request.weight) + 2e-6
