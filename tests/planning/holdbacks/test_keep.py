"""Whom to keep: beside every choice there is."""

from itertools import combinations
from time import monotonic

import numpy as np
import pytest

from colony.planning.holdbacks.keep import BreedingHerd, KeepRules, best_of, keep


def herd(seed: int, breeders: int = 4, pups: int = 7) -> BreedingHerd:
    """A species with breeders of any age, and pups of some families."""
    chance = np.random.default_rng(seed)
    size = breeders + pups
    family = np.concatenate([np.arange(breeders), breeders + chance.integers(3, size=pups)])
    between = chance.choice([0.0, 0.0625, 0.125, 0.25], size=(breeders + 3, breeders + 3))
    between = np.triu(between, 1) + np.triu(between, 1).T
    np.fill_diagonal(between, 0.25)
    kinship = between[np.ix_(family, family)].astype(float)
    np.fill_diagonal(kinship, chance.choice([0.5, 0.5625], size=size))
    sexes = [str(sex) for sex in chance.choice(["F", "M"], size=size)]
    return BreedingHerd(
        kinship[:breeders, :breeders],
        kinship[breeders:, :breeders],
        kinship[breeders:, breeders:],
        chance.uniform(0, 10, size=breeders),
        10.0,
        sexes[breeders:],
        sexes[:breeders],
        chance.choice([100.0, 200.0, 400.0], size=pups),
        [str(n) for n in family[breeders:]],
    )


def allowed(of: BreedingHerd, chosen: tuple[int, ...], rules: KeepRules) -> bool:
    """Whether each has a partner within the limit, and the price is not too much."""
    if of.prices[list(chosen)].sum() > rules.cost_max:
        return False
    for at in chosen:
        other = {"F": "M", "M": "F"}[of.sexes[at]]
        here = [
            k for k, sex in zip(of.with_breeders[at], of.breeder_sexes, strict=True) if sex == other
        ]
        kept = [of.among_pups[at, n] for n in chosen if of.sexes[n] == other]
        if not any(k <= rules.kinship_limit for k in (*here, *kept)):
            return False
    return True


@pytest.mark.parametrize("seed", range(30))
def test_no_other_choice_of_so_many_is_better(seed: int) -> None:
    """By trying every one; where none is allowed, none is found."""
    of = herd(seed)
    rules = KeepRules(
        kinship_limit=[0.0, 0.0625, 0.125][seed % 3], cost_max=[700.0, np.inf][seed % 2]
    )
    for count in (1, 2, 4):
        every = [
            of.mean_kinship(chosen)
            for chosen in combinations(range(len(of.sexes)), count)
            if allowed(of, chosen, rules)
        ]
        chosen, sure = best_of(of, count, rules, seconds=10)
        assert sure
        assert (chosen is None) is (not every)
        if chosen is not None:
            assert allowed(of, chosen, rules)
            assert of.mean_kinship(chosen) == pytest.approx(min(every), abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_slots_are_shared_among_species_as_by_trying(seed: int) -> None:
    """Two species and three slots: as many as can be, then the least sum of mean kinships."""
    herds = [herd(seed, pups=4), herd(seed + 100, pups=4)]
    rules = KeepRules(kinship_limit=0.125)
    best = min(
        (-n - m, sum(of.mean_kinship(part) for of, part in zip(herds, (one, other), strict=True)))
        for n in range(4)
        for m in range(4 - n)
        for one in combinations(range(4), n)
        for other in combinations(range(4), m)
        if allowed(herds[0], one, rules) and allowed(herds[1], other, rules)
    )
    found = keep(herds, 3, rules, seconds=20, clock=monotonic)
    assert found.proven
    total = sum(of.mean_kinship(part) for of, part in zip(herds, found.chosen, strict=True))
    assert sum(map(len, found.chosen)) == -best[0]
    assert total == pytest.approx(best[1], abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_money_over_several_species_is_kept_to_and_not_called_proved(seed: int) -> None:
    """Of one species it is exact."""
    herds = [herd(seed, pups=4), herd(seed + 100, pups=4)]
    rules = KeepRules(cost_max=300.0)
    found = keep(herds, 3, rules, seconds=20, clock=monotonic)
    spent = sum(of.prices[list(part)].sum() for of, part in zip(herds, found.chosen, strict=True))
    assert spent <= 300
    assert not found.proven
    assert keep(herds[:1], 3, rules, seconds=20, clock=monotonic).proven


def test_the_mean_is_weighted_by_the_years_that_are_left() -> None:
    """By hand: two breeders of 1 and 3 years, unrelated: (1/2 + 9/2) / 16."""
    of = herd(1, breeders=2)
    plain = BreedingHerd(
        np.eye(2) / 2,
        np.zeros((1, 2)),
        np.array([[0.5]]),
        np.array([1.0, 3.0]),
        4.0,
        ["F"],
        ["F", "M"],
        np.zeros(1),
        ["a"],
    )
    assert plain.mean_kinship() == pytest.approx(5 / 16)
    assert plain.mean_kinship([0]) == pytest.approx((0.5 + 4.5 + 8) / 64)
    assert of.mean_kinship() > 0


def test_who_is_nobodys_kin_is_kept_before_a_sib_of_all() -> None:
    """And the sib fills the second slot."""
    alike = np.full((2, 2), 0.5)
    of = BreedingHerd(
        np.eye(2) / 2,
        np.array([[0.5, 0.5], [0.0, 0.0]]),
        alike,
        np.array([8.0, 8.0]),
        4.0,
        ["F", "F"],
        ["F", "M"],
        np.zeros(2),
        ["a", "b"],
    )
    assert keep([of], 1, KeepRules(), seconds=5, clock=monotonic).chosen == ((1,),)
    assert keep([of], 2, KeepRules(), seconds=5, clock=monotonic).chosen == ((0, 1),)


def test_nobody_is_kept_without_a_partner() -> None:
    """A female beside females alone: unless a male is kept with her."""
    of = BreedingHerd(
        np.array([[0.5]]),
        np.zeros((2, 1)),
        np.eye(2) / 2,
        np.array([5.0]),
        5.0,
        ["F", "M"],
        ["F"],
        np.zeros(2),
        ["a", "b"],
    )
    rules = KeepRules(kinship_limit=0.125)
    assert best_of(of, 1, rules, seconds=5) == ((1,), True)
    assert best_of(of, 2, rules, seconds=5) == ((0, 1), True)
