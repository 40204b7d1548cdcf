"""What becomes of a colony under a plan, beside chance and the rule "least kin first".

Each generation the pups of all pairs are measured: their mean kinship, themselves included,
and gene diversity, 1 less that (Lacy 1995, Zoo Biology 14:565-577). Then as many dams and
sires as the plan has are drawn from the pups, and paired by the same rule. Kinship follows
from that of the parents (Malecot 1948; the tabular method of Emik & Terrill 1949).
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Literal, get_args

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.baselines import baseline_pairs, order_of
from colony.planning.pairings.request import (
    BreedingTank,
    Deadline,
    Effort,
    Pair,
    PairingRequest,
    Stock,
)
from colony.planning.pairings.search.count import count_litters
from colony.planning.pairings.search.greedy import greedy_pairs
from colony.planning.pairings.search.objective import Objective
from colony.planning.pairings.search.problem import PairingProblem
from colony.planning.pairings.search.search import best_plan

Way = Literal["plan", "least kin first", "random"]

QUICK = Effort(seconds=5.0, enough=1e-3, polish=0)
"""Plans of generations that are drawn need no closer proof."""


@dataclass(frozen=True)
class Ahead:
    """The pups of a generation: means over the repeats, and the standard error of the first."""

    generation: int
    mean_kinship: float
    standard_error: float
    mean_inbreeding: float

    @property
    def gene_diversity(self) -> float:
        """The expected heterozygosity that is left of the founders'."""
        return 1 - self.mean_kinship


@dataclass(frozen=True)
class Future:
    """What one way of pairing leads to, generation by generation."""

    way: Way
    ahead: tuple[Ahead, ...]


@dataclass(frozen=True)
class FutureDraw:
    """How the future is drawn: its length, the pups of a litter, how often, and the seed."""

    generations: int = 3
    pups: int = 4
    repeats: int = 10
    seed: int = 0


DEFAULT_DRAW = FutureDraw()


def futures(  # noqa: PLR0913 - what a plan takes, the plan, and how to draw
    stock: Stock,
    request: PairingRequest,
    planned: Sequence[Pair],
    tanks: Sequence[BreedingTank] = (),
    *,
    today: date,
    draw: FutureDraw = DEFAULT_DRAW,
) -> tuple[Future, ...]:
    """Simulate the generations after a plan, after "least kin first" and after chance.

    The first generation keeps every constraint of the request; later ones keep the numbers of
    dams and sires, one sire a dam and equal capacity.
    """
    if not planned:
        return ()
    size = len(planned), len({sire for _, sire in planned})
    row = {animal.tag: n for n, animal in enumerate(stock.animals)}
    found = []
    for way in get_args(Way):
        runs = []
        for repeat in range(draw.repeats):
            chance = np.random.default_rng([draw.seed, repeat])
            first: Sequence[Pair] = planned
            if way != "plan":
                seed = int(chance.integers(2**32))
                first = baseline_pairs(stock, request, tanks, rule=way, today=today, seed=seed)
            rows = np.array([[row[dam], row[sire]] for dam, sire in first], dtype=np.intp)
            runs.append(_run(way, stock.kinship, rows, size, draw, chance))
        found.append(Future(way, tuple(_summed(np.array(runs)))))
    return tuple(found)


def _run(  # noqa: PLR0913, PLR0917 - one repeat of one way
    way: Way,
    kinship: Floats,
    pairs: Index,
    size: tuple[int, int],
    draw: FutureDraw,
    chance: np.random.Generator,
) -> list[tuple[float, float]]:
    """Follow one repeat; mean kinship and mean F of the pups of each generation."""
    measured = []
    for generation in range(draw.generations):
        kinship = pups_kinship(kinship, np.repeat(pairs, draw.pups, axis=0))
        measured.append((float(kinship.mean()), float(2 * kinship.diagonal().mean() - 1)))
        if generation + 1 < draw.generations:
            breeders = _drawn(len(kinship), draw.pups, size, chance)
            kinship = kinship[np.ix_(breeders, breeders)]
            pairs = _paired(way, kinship, size, chance)
    return measured


def pups_kinship(kinship: Floats, parents: Index) -> Floats:
    """Kinship of pups with each other, from that of their parents.

    Parameters
    ----------
    kinship
        Kinship of n parents, shape (n, n).
    parents
        Rows of the dam and the sire of each of p pups, shape (p, 2).

    Returns
    -------
    Floats
        Shape (p, p): the mean of the four kinships of the parents, and (1 + F) / 2 on the
        diagonal.
    """
    dam, sire = parents.T
    halves = (kinship[dam] + kinship[sire]) / 2
    pups: Floats = (halves[:, dam] + halves[:, sire]) / 2
    np.fill_diagonal(pups, (1 + kinship[dam, sire]) / 2)
    return pups


def _drawn(count: int, litter: int, size: tuple[int, int], chance: np.random.Generator) -> Index:
    """Draw dams and sires from pups, every second of a litter a female (sex ratio 1:1)."""
    order = chance.permutation(count)
    female = order % litter % 2 == 0
    drawn = [order[female][: size[0]], order[~female][: size[1]]]
    return np.concatenate(drawn)


def _paired(way: Way, kinship: Floats, size: tuple[int, int], chance: np.random.Generator) -> Index:
    """Pair drawn dams with drawn sires, each sire with as many as the others or one more."""
    dams, sires = size
    dam, sire = (numbers.ravel() for numbers in np.indices((dams, sires)))
    f = kinship[dam, dams + sire]
    none = np.zeros(len(f))
    goal = Objective(dam, sire, f, none, kinship, dams, weight=1.0)
    capacity = np.full(sires, -(-dams // sires))
    problem = PairingProblem(goal, capacity, (), none.astype(bool), none, None, dams)
    if way == "plan":
        deadline = Deadline(QUICK)
        chosen = best_plan(problem, count_litters(problem, QUICK, deadline), QUICK, deadline).chosen
    else:
        chosen = greedy_pairs(problem, order_of(problem, way, chance))
    return np.column_stack([dam[chosen], dams + sire[chosen]])


def _summed(runs: Floats) -> Iterator[Ahead]:
    """Mean over repeats, from (repeats, generations, 2)."""
    spread = runs[:, :, 0].std(axis=0, ddof=1) if len(runs) > 1 else np.zeros(runs.shape[1])
    for number, (kinship, inbreeding) in enumerate(runs.mean(axis=0).tolist()):
        error = float(spread[number]) / len(runs) ** 0.5
        yield Ahead(number + 1, kinship, error, inbreeding)
