"""The search over kinds against every plan, and the steps that an objective comes in."""

import time
from fractions import Fraction

import pytest
from herds_alike import families, problem_of
from plain_colonies import TODAY, best_of_all, stock

from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import Deadline, Effort, PairingRequest, Watch
from colony.planning.pairings.search.alike import kinds
from colony.planning.pairings.search.by_kinds import objective_step, plan_by_kinds
from colony.planning.pairings.search.count import count_litters
from colony.planning.pairings.search.descent import KindCosts


@pytest.mark.parametrize("seed", range(6))
def test_the_best_of_all_plans_lies_between_bound_and_value(seed: int) -> None:
    """8 dams and 6 sires, every plan tried one by one."""
    colony, effort = stock(8, 6, seed), Effort()
    problem = problem_of(colony, PairingRequest(most_females=3))
    deadline = Deadline(effort)
    found = plan_by_kinds(problem, count_litters(problem, effort, deadline), effort, deadline)
    assert found is not None
    best = best_of_all(colony, 8, 3)
    assert found.bound <= best + 1e-9
    assert found.value == pytest.approx(best, abs=1e-9)
    assert found.value - found.bound <= 3e-4 * best


@pytest.mark.parametrize(("litters", "gap"), [(3, 0.0), (10, 0.0), (20, 0.04), (39, 0.01)])
def test_a_herd_of_families_is_bounded_closely(litters: int, gap: float) -> None:
    """20 founders and 12 families of five, for any number of litters, in five seconds."""
    colony = stock(40, 40, kinship=families())
    effort = Effort(seconds=5.0, clock=time.process_time)
    problem = problem_of(colony, PairingRequest(litters=litters))
    deadline = Deadline(effort)
    found = plan_by_kinds(problem, count_litters(problem, effort, deadline), effort, deadline)
    assert found is not None
    assert found.bound <= found.value + 1e-12
    assert found.value - found.bound <= gap * found.value + 1e-9


@pytest.mark.parametrize(
    ("litters", "weight", "step"),
    [(4, 1.0, Fraction(1, 4 * 16 * 4)), (4, 0.0, Fraction(1, 4 * 4)), (5, 1.5, Fraction(1, 800))],
)
def test_objectives_come_in_steps(litters: int, weight: float, step: Fraction) -> None:
    """Kinships in quarters, N litters, weight p/q: gcd(4 N q, p) / (4 N^2 q 4), by hand."""
    of = kinds(problem_of(stock(40, 40, kinship=families()), PairingRequest(litters=litters)))
    assert set((of.kinship * 4 % 1).ravel().tolist()) == {0.0}
    assert objective_step(KindCosts(of, litters, weight)) == pytest.approx(float(step))


def test_who_watches_is_told_the_gap_and_may_stop_it() -> None:
    """Stopped after the first word, the plan is whole and its bound holds."""
    told: list[float] = []
    effort = Effort(
        seconds=60.0,
        clock=time.process_time,
        watch=Watch(stopped=lambda: len(told) > 2, tell=told.append),
    )
    colony = stock(40, 40, kinship=families())
    began = time.process_time()
    plan = plan_pairings(colony, PairingRequest(litters=20), today=TODAY, effort=effort)
    assert time.process_time() - began < 20
    assert len(plan.pairs) == 20
    assert not plan.optimal
    assert 0 < plan.gap <= told[0] + 1e-9
    assert any("best found in the time" in note for note in plan.notes)
