"""Exact beliefs on a tree of normals: colony, litter, pup, each near the one above it.

Every node holds a vector of q numbers. A child is its parent plus normal noise; data speak
at the leaves only, in information form. One pass up and one pass down give the exact
posterior (Pearl 1988, Probabilistic Reasoning in Intelligent Systems, ch. 7; for one
level it is the shrinkage of Gelman et al., Bayesian Data Analysis, 3rd ed. 2013, ch. 5).
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats, Index


@dataclass(frozen=True)
class Information:
    """What data say of n vectors: precisions (n, q, q) and precision-weighted means (n, q)."""

    precision: Floats
    weighted: Floats


@dataclass(frozen=True)
class Belief:
    """Means (n, q) and covariances (n, q, q) of n vectors."""

    mean: Floats
    covariance: Floats


@dataclass(frozen=True)
class Level:
    """Children of one level: the index of each one's parent, and the noise between them."""

    parent: Index
    parents: int
    noise: Floats


@dataclass(frozen=True)
class LevelBelief:
    """The beliefs of a level, and of the differences between its nodes and their parents."""

    belief: Belief
    difference: Belief


def posterior(top: Belief, levels: tuple[Level, ...], data: Information) -> tuple[LevelBelief, ...]:
    """Compute the exact posterior of every level.

    Parameters
    ----------
    top
        Prior of the roots, n of them.
    levels
        From the one below the roots down to the leaves.
    data
        What is known of the leaves; precisions may be singular.

    Returns
    -------
    tuple of Step
        The roots first; a root's difference is that from its prior mean.
    """
    rising = [data]
    for level in reversed(levels):
        rising.insert(0, _to_parents(rising[0], level))
    roots = _combined(top, rising[0])
    steps = [LevelBelief(roots, Belief(roots.mean - top.mean, roots.covariance))]
    for level, seen in zip(levels, rising[1:], strict=True):
        steps.append(_to_children(steps[-1].belief, seen, level))
    return tuple(steps)


def _combined(prior: Belief, seen: Information) -> Belief:
    precision = _inverse(prior.covariance)
    covariance = _inverse(precision + seen.precision)
    weighted = _times(precision, prior.mean) + seen.weighted
    return Belief(_times(covariance, weighted), covariance)


def _to_parents(seen: Information, level: Level) -> Information:
    """Blur what is known of the children by the noise, and add it up by parent."""
    q = seen.weighted.shape[1]
    blur = _inverse(np.eye(q) + seen.precision @ level.noise)
    precision, weighted = np.zeros((level.parents, q, q)), np.zeros((level.parents, q))
    np.add.at(precision, level.parent, blur @ seen.precision)
    np.add.at(weighted, level.parent, _times(blur, seen.weighted))
    return Information(precision, weighted)


def _to_children(parents: Belief, seen: Information, level: Level) -> LevelBelief:
    pull = _inverse(level.noise)
    alone = _inverse(pull + seen.precision)
    gain = alone @ pull
    above, spread = parents.mean[level.parent], parents.covariance[level.parent]
    mean = _times(gain, above) + _times(alone, seen.weighted)
    lag = gain - np.eye(level.noise.shape[0])
    return LevelBelief(
        Belief(mean, alone + _sandwich(gain, spread)),
        Belief(mean - above, alone + _sandwich(lag, spread)),
    )


def _inverse(matrices: Floats) -> Floats:
    return np.linalg.inv(matrices).astype(np.float64, copy=False)


def _times(matrices: Floats, vectors: Floats) -> Floats:
    product: Floats = (matrices @ vectors[..., None])[..., 0]
    return product


def _sandwich(outer: Floats, inner: Floats) -> Floats:
    product: Floats = outer @ inner @ np.swapaxes(outer, -1, -2)
    return product
