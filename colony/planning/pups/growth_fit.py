"""Growth curves of a whole colony, each leaning on its litter, its colony and its species.

The von Bertalanffy law is linearised about the current curves (Gauss-Newton); the normal
tree above them is solved exactly; the measuring error and the spreads between litters
and between pups follow from the colony's own widths by expectation-maximisation (Dempster,
Laird & Rubin 1977, J. R. Stat. Soc. B 39:1-38), held near their starting values by weights.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats
from colony.planning.pups.growth import Curve, GrowthPrior, Width
from colony.planning.pups.growth_data import (
    Given,
    Grower,
    Guess,
    Slopes,
    Widths,
    evidence_of_widths,
    packed,
    slopes,
)
from colony.planning.pups.growth_tree import Belief, Level, LevelBelief, posterior

ROUNDS = 40
STILL = 1e-3
LARGEST_STEP = 0.7
FARTHEST = 2.5


@dataclass(frozen=True)
class Spreads:
    """Standard deviations where the fit starts, and how many animals they are worth.

    `error_mm` is that of one measured width; the others are of (log rate, log asymptote)
    among the litters of a colony and among the pups of a litter. Common practice, no source.
    """

    error_mm: float = 3.0
    litter: tuple[float, float] = (0.20, 0.05)
    pup: tuple[float, float] = (0.20, 0.06)
    weight: float = 10.0


@dataclass(frozen=True)
class ColonyGrowth:
    """The curve of every animal by its tag, and the spreads the colony's widths show.

    `colony` is by species: mean deviation of (log rate, log asymptote) from the species prior.
    """

    curves: Mapping[str, Curve]
    spreads: Spreads
    colony: Mapping[str, tuple[float, float]]


@dataclass(frozen=True)
class _Round:
    """One round of the fit: the tree's beliefs and the first widths given them."""

    steps: tuple[LevelBelief, ...]
    given: Given
    guess: Guess


def fit_colony(
    growers: Sequence[Grower], start: Spreads = Spreads(), *, stretch: float = 1.0
) -> ColonyGrowth:
    """Fit the growth curves of all animals of a colony together.

    Parameters
    ----------
    growers
        Living and past animals with their trusted widths. One without a width starts from
        its birth; one with neither is left out.
    start
        Where the error and the spreads start.
    stretch
        What the standard deviations of the curves are multiplied by; `growth_check` finds it.

    Returns
    -------
    ColonyGrowth
        A curve per animal, on the day of its last width.
    """
    growers = [g for g in growers if g.starts]
    if not growers:
        return ColonyGrowth({}, start, {})
    widths = packed(growers, start.error_mm)
    top, spreads = _species_priors(growers), start
    guess = Guess(widths.width_mm[:, 0], np.zeros((len(growers), 2)))
    for _ in range(ROUNDS):
        before, at = guess, slopes(widths, guess)
        found = _solve(widths, guess, at, (top, spreads))
        guess = _bounded(before, found.guess)
        spreads = _learned(widths, slopes(widths, guess), found, start)
        if np.abs(guess.deviation - before.deviation).max() < STILL:
            break
    curves = _curves(growers, widths, found, stretch)
    means = map(tuple, found.steps[0].belief.mean.tolist())
    names = dict.fromkeys(g.species for g in growers)
    return ColonyGrowth(curves, spreads, dict(zip(names, means, strict=True)))


def fit_own(widths: Sequence[Width], prior: GrowthPrior) -> Curve:
    """Fit the curve of one animal by nothing but its own trusted widths, one at least."""
    alone = Grower("", "", "U", "", None, tuple(widths), prior)
    return fit_colony([alone]).curves[""]


def _species_priors(growers: Sequence[Grower]) -> Belief:
    """Expect no deviation of a colony, with the spread that its species allows."""
    first: dict[str, Grower] = {}
    for grower in growers:
        first.setdefault(grower.species, grower)
    spread = [(g.prior.rate_spread, g.prior.asymptotic_spread) for g in first.values()]
    covariance = np.array([np.diag(np.square(pair)) for pair in spread])
    return Belief(np.zeros((len(first), 2)), covariance)


def _solve(widths: Widths, guess: Guess, at: Slopes, model: tuple[Belief, Spreads]) -> _Round:
    top, spreads = model
    seen, given = evidence_of_widths(widths, guess, at, spreads.error_mm)
    colony = widths.colony_of_litter
    levels = (
        Level(colony, len(top.mean), np.diag(np.square(spreads.litter))),
        Level(widths.litter, len(colony), np.diag(np.square(spreads.pup))),
    )
    steps = posterior(top, levels, seen)
    deviation = steps[-1].belief.mean
    first = given.mean_mm + np.einsum("ni,ni->n", given.slope, deviation)
    return _Round(steps, given, Guess(first, deviation))


def _bounded(before: Guess, after: Guess) -> Guess:
    """Step no farther than the linearisation can be trusted."""
    step = np.clip(after.deviation - before.deviation, -LARGEST_STEP, LARGEST_STEP)
    return Guess(after.first_mm, np.clip(before.deviation + step, -FARTHEST, FARTHEST))


def _learned(widths: Widths, at: Slopes, found: _Round, start: Spreads) -> Spreads:
    """Take the spreads from the beliefs, each held near its start by the start's weight."""
    return Spreads(
        error_mm=_learned_error(widths, at, found, start),
        litter=_scatter(found.steps[1].difference, start.litter, start.weight),
        pup=_scatter(found.steps[2].difference, start.pup, start.weight),
        weight=start.weight,
    )


def _scatter(difference: Belief, start: tuple[float, float], weight: float) -> tuple[float, float]:
    squares = difference.mean**2 + np.diagonal(difference.covariance, axis1=1, axis2=2)
    pooled = (weight * np.square(start) + squares.sum(axis=0)) / (weight + len(squares))
    rate, asymptotic = np.sqrt(pooled)
    return float(rate), float(asymptotic)


def _learned_error(widths: Widths, at: Slopes, found: _Round, start: Spreads) -> float:
    covariance = _joint_covariance(found)
    unsure = np.einsum("nmi,nij,nmj->nm", at.by_unknown, covariance, at.by_unknown)
    squares = widths.counts * ((widths.width_mm - at.predicted_mm) ** 2 + unsure)
    weight = 2 * start.weight
    pooled = (weight * start.error_mm**2 + squares.sum()) / (weight + widths.counts.sum())
    return float(np.sqrt(pooled))


def _joint_covariance(found: _Round) -> Floats:
    """Covariance of (first width, log rate, log asymptote) of every animal (n, 3, 3)."""
    deviation, slope = found.steps[-1].belief.covariance, found.given.slope
    joint = np.empty((len(slope), 3, 3))
    joint[:, 1:, 1:] = deviation
    joint[:, 0, 1:] = joint[:, 1:, 0] = np.einsum("ni,nij->nj", slope, deviation)
    joint[:, 0, 0] = found.given.variance + np.einsum("ni,ni->n", joint[:, 0, 1:], slope)
    return joint


def _curves(
    growers: Sequence[Grower], widths: Widths, found: _Round, stretch: float
) -> dict[str, Curve]:
    """Carry every belief from the day of the first width to that of the last."""
    rows = np.arange(len(growers))
    last = np.array([len(g.starts) - 1 for g in growers])
    at = slopes(widths, found.guess)
    carry = np.tile(np.eye(3), (len(growers), 1, 1))
    carry[:, 0, :] = at.by_unknown[rows, last]
    covariance = carry @ _joint_covariance(found) @ np.swapaxes(carry, 1, 2)
    triangles = stretch * np.linalg.cholesky(covariance + np.diag([1e-6, 1e-9, 1e-9]))
    logs = found.guess.deviation + np.column_stack([widths.log_rate, widths.log_asymptotic])
    means = np.column_stack([at.predicted_mm[rows, last], logs])
    lower = triangles[:, *np.tril_indices(3)]
    return {
        g.tag: Curve(g.starts[-1].day, tuple(mean), tuple(triangle))
        for g, mean, triangle in zip(growers, means.tolist(), lower.tolist(), strict=True)
    }
