"""The exact posterior on a tree of normals, against a dense solution and a published table."""

import numpy as np
import pytest

from colony.planning.arrays import Floats
from colony.planning.pups.growth_tree import Belief, Information, Level, posterior

EIGHT_SCHOOLS = np.array([28, 8, -3, 7, -1, 1, 18, 12.0])
THEIR_ERRORS = np.array([15, 10, 16, 11, 9, 11, 10, 18.0])
"""Rubin 1981, Estimation in parallel randomized experiments, J. Educ. Stat. 6:377-401; Gelman
et al. 2013, Bayesian Data Analysis, 3rd ed., table 5.2 and the pooled estimate of section 5.5."""


def one_level(noise: float) -> tuple[Floats, Floats]:
    """Solve the eight schools under one flat root, with this variance between schools."""
    data = Information(
        (THEIR_ERRORS**-2.0)[:, None, None], (EIGHT_SCHOOLS * THEIR_ERRORS**-2.0)[:, None]
    )
    level = Level(np.zeros(8, dtype=np.intp), 1, np.array([[noise]]))
    root, schools = posterior(Belief(np.zeros((1, 1)), np.array([[[1e8]]])), (level,), data)
    assert root.belief.mean.shape == (1, 1)
    return root.belief.mean[0], schools.belief.mean[:, 0]


def test_full_pooling_gives_the_published_mean() -> None:
    """With no difference between the schools the pooled estimate is 7.7 (Gelman et al. 2013)."""
    mean, schools = one_level(1e-6)
    assert mean[0] == pytest.approx(7.7, abs=0.05)
    assert schools == pytest.approx(np.full(8, mean[0]), abs=1e-3)


def test_no_pooling_gives_each_school_back() -> None:
    """With boundless differences every school keeps its own estimate (Gelman et al. 2013)."""
    _, schools = one_level(1e9)
    assert schools == pytest.approx(EIGHT_SCHOOLS, abs=1e-2)


def dense(
    top: Belief, levels: tuple[Level, ...], data: Information
) -> tuple[list[Floats], list[Floats]]:
    """Build the whole covariance and condition it at once: the slow, plain twin."""
    q = top.mean.shape[1]
    paths = [np.eye(len(top.mean))]
    for level in levels:
        paths.append(paths[-1][level.parent])
    sizes = [len(path) for path in paths]
    starts = np.concatenate([[0], np.cumsum(sizes)])
    total = starts[-1]
    load = np.zeros((total, total))
    noise = np.zeros((total * q, total * q))
    for depth, size in enumerate(sizes):
        rows = np.arange(starts[depth], starts[depth + 1])
        load[rows, rows] = 1
        for n in range(size):
            block = slice((starts[depth] + n) * q, (starts[depth] + n + 1) * q)
            noise[block, block] = top.covariance[n] if depth == 0 else levels[depth - 1].noise
            if depth:
                parent = starts[depth - 1] + levels[depth - 1].parent[n]
                load[starts[depth] + n] += load[parent]
    wide = np.kron(load, np.eye(q))
    prior = wide @ noise @ wide.T
    mean = wide @ np.concatenate([top.mean.ravel(), np.zeros((total - sizes[0]) * q)])
    precision = np.linalg.inv(prior)
    weighted = precision @ mean
    for n in range(sizes[-1]):
        block = slice((starts[-2] + n) * q, (starts[-2] + n + 1) * q)
        precision[block, block] += data.precision[n]
        weighted[block] += data.weighted[n]
    covariance = np.linalg.inv(precision)
    means = (covariance @ weighted).reshape(total, q)
    blocks = [covariance[n * q : n * q + q, n * q : n * q + q] for n in range(total)]
    return (
        [means[starts[d] : starts[d + 1]] for d in range(len(sizes))],
        [np.array(blocks[starts[d] : starts[d + 1]]) for d in range(len(sizes))],
    )


@pytest.mark.parametrize("seed", range(5))
def test_the_tree_equals_the_dense_solution(seed: int) -> None:
    """Means and covariances of all nodes equal those of the whole covariance, conditioned."""
    rng = np.random.default_rng(seed)

    def spread() -> Floats:
        root = rng.normal(size=(2, 2))
        return root @ root.T + 0.1 * np.eye(2)

    top = Belief(rng.normal(size=(2, 2)), np.array([spread(), spread()]))
    levels = (
        Level(np.array([0, 0, 1, 1, 1], dtype=np.intp), 2, spread()),
        Level(rng.integers(0, 5, 12).astype(np.intp), 5, spread()),
    )
    information = np.array([spread() * (n % 3) for n in range(12)])
    data = Information(information, np.einsum("nij,nj->ni", information, rng.normal(size=(12, 2))))
    means, covariances = dense(top, levels, data)
    for step, mean, covariance in zip(
        posterior(top, levels, data), means, covariances, strict=True
    ):
        assert step.belief.mean == pytest.approx(mean, abs=1e-8)
        assert step.belief.covariance == pytest.approx(covariance, abs=1e-8)
