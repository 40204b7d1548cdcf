"""What a plan is judged by, and the split of its one curved part that makes it solvable.

For N litters, pair p of dam i and sire j, and c the share of each parent in the next
generation (one half of its litters, over N):

    mean F of the litters + weight * c' K c - founder weight * c' r + ties

c' K c is the mean kinship of the next generation: of two genes drawn from its parents in
proportion to their contributions (Ballou & Lacy 1995, in Population Management for Survival
and Recovery; Sonesson & Meuwissen 2000, Genet. Sel. Evol. 32:231-248). F of a litter is the
kinship of its parents (Wright 1922).
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Floats, Index

TIE = 1e-6
"""What a plan that moves every animal pays more than one that moves none."""

ROUNDING = 1e-9
"""Eigenvalues of kinship are known to better than this."""


@dataclass(frozen=True, eq=False)
class Objective:
    """The costs of a plan of a given number of litters.

    `dam` and `sire` (P,) number the parents of each open pair among a dams and b sires; `f`
    (P,) is its F; `linear` (P,) what else its litter costs; `kinship` (a + b, a + b) that of
    the parents, dams first.
    """

    dam: Index
    sire: Index
    f: Floats
    linear: Floats
    kinship: Floats
    dams: int
    weight: float

    def litters_of(self, chosen: Index) -> Floats:
        """Litters of each parent, dams first, shape (a + b,)."""
        both = np.concatenate([self.dam[chosen], self.dams + self.sire[chosen]])
        return np.bincount(both, minlength=len(self.kinship)).astype(float)

    def mean_inbreeding(self, chosen: Index) -> float:
        """Mean F of the litters of the chosen pairs."""
        return float(self.f[chosen].mean())

    def next_mean_kinship(self, chosen: Index) -> float:
        """Mean kinship of the next generation, c' K c."""
        shares = self.litters_of(chosen) / (2 * len(chosen))
        return float(shares @ self.kinship @ shares)

    def value(self, chosen: Index) -> float:
        """Evaluate what is minimised, without the ties."""
        straight = float((self.f[chosen] + self.linear[chosen]).mean())
        return straight + self.weight * self.next_mean_kinship(chosen)


def own_part(kinship: Floats) -> Floats:
    """Find a diagonal that can be taken off a kinship matrix and leave it without dips.

    Kinship is a matrix of covariances, so it is positive semidefinite, and each animal has a
    Mendelian part of its own. Split off, that part is a cost of each litter by itself, which
    whole numbers meet exactly; only the rest is curved. (Kinships given to founders by hand
    may contradict each other; then the diagonal is negative, and bounds hold but are wider.)

    Parameters
    ----------
    kinship
        Kinship of n parents, shape (n, n).

    Returns
    -------
    Floats
        d, shape (n,), with kinship - diag(d) positive semidefinite.
    """
    if not len(kinship):
        return np.zeros(0)
    own = 1 / np.diag(np.linalg.inv(kinship + ROUNDING * np.eye(len(kinship))))
    scale = 1 / np.sqrt(np.clip(own, 1e-3, 1.0))
    least = np.linalg.eigvalsh(kinship * np.outer(scale, scale))[0]
    d: Floats = (float(least) - ROUNDING) / scale**2
    return d
