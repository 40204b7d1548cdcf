"""Mean kinship from below: the kinship matrix split into parts that whole litters meet.

For counts of litters n >= 0 and any split K = S + diag(D) + P with S positive semidefinite
and no element of P below zero, n' K n >= n' S n + D n^2: the first is curved and bounded by
its tangents, the second exact in whole numbers. The split that bounds best at a point is the
dual of the doubly nonnegative relaxation (Burer 2009, Math. Program. 120:479-495; splitting
off a diagonal: Billionnet & Elloumi 2007, Math. Program. 109:55-68). It is found by
alternating directions (Wen, Goldfarb & Yin 2010, Math. Program. Comput. 2:203-230), and is
a bound after any number of steps: what they leave undone is taken off the diagonal.
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats

STEPS, FEW = 10, 0.5
"""Steps taken for each split; litters of a kind that has none, where kinds are scaled."""


@dataclass(frozen=True, eq=False)
class Split:
    """One split of a kinship matrix: `smooth` (m, m) is S and `own` (m,) is D."""

    smooth: Floats
    own: Floats


def squares(n: Floats) -> Floats:
    """The squares of whole numbers, joined by straight lines."""
    below = np.floor(n + 1e-9)
    joined: Floats = below**2 + (n - below) * (2 * below + 1)
    return joined


class Splitter:
    """Finds splits, each beginning where the last one ended.

    Parameters
    ----------
    kinship
        Kinship of m kinds, (m, m).
    dams
        How many of them are dams: litters of these add up, and so do those of the others, so
        that S may dip in the directions that no plan moves in.
    usual
        Litters of each kind in a good plan, (m,).
    """

    def __init__(self, kinship: Floats, dams: int, usual: Floats) -> None:
        self._scale = np.maximum(usual, FEW)
        self._kinship = kinship * np.outer(self._scale, self._scale)
        sums = np.zeros((len(kinship), 2))
        sums[:dams, 0], sums[dams:, 1] = self._scale[:dams], self._scale[dams:]
        used = sums.any(axis=0)
        basis = np.linalg.qr(sums[:, used], mode="complete")[0]
        self._free = basis[:, used.sum() :]
        self._primal = np.zeros_like(kinship)
        self._dual = np.zeros_like(kinship)
        self._step = 1.0

    def at(self, n: Floats) -> Split:
        """Split so that the bound at a point is as good as a few steps make it."""
        self._approach(n / self._scale, squares(n) / self._scale**2)
        rest = np.maximum(self._kinship - self._step * self._dual, 0.0)
        smooth = self._kinship - rest
        # No dip in any direction that is left, and nothing below zero beside the diagonal.
        value, vector = self._eigen(smooth)
        dips = self._free @ vector[:, value < 0]
        smooth = smooth - (dips * value[value < 0]) @ dips.T
        rest = self._kinship - smooth
        below = np.minimum(rest - np.diag(np.diag(rest)), 0.0)
        taken = -below.sum(axis=1)
        smooth = smooth + below + np.diag(taken)
        own = (np.diag(rest) - taken) / self._scale**2
        return Split(smooth / np.outer(self._scale, self._scale), own)

    def _eigen(self, matrix: Floats) -> tuple[Floats, Floats]:
        inside = self._free.T @ matrix @ self._free
        value, vector = np.linalg.eigh((inside + inside.T) / 2)
        return value, vector

    def _approach(self, n: Floats, square: Floats) -> None:
        """Alternate between matrices without dips and those above -n n', squares above theirs."""
        least = -np.outer(n, n)
        np.fill_diagonal(least, np.maximum(square - n**2, 0.0))
        for _ in range(STEPS):
            value, vector = self._eigen(self._primal - self._dual)
            rising = self._free @ vector[:, value > 0]
            curved = (rising * value[value > 0]) @ rising.T
            before = self._primal
            self._primal = np.maximum(curved + self._dual - self._kinship / self._step, least)
            self._dual = self._dual + curved - self._primal
        apart = np.linalg.norm(curved - self._primal)
        moved = self._step * np.linalg.norm(self._primal - before)
        factor = 2.0 if apart > 3 * moved else 0.5 if moved > 3 * apart else 1.0
        self._step *= factor
        self._dual = self._dual / factor
