"""Animals that no plan need tell apart, taken together as one kind, and a plan as counts of kinds.

Full sibs of one sex without young are kin to everybody alike: which of them breeds changes
nothing that a plan is judged by. A search over kinds meets each such plan once, not a
thousand times (symmetry: Margot 2010, in 50 Years of Integer Programming 1958-2008, ch. 17).
"""

from dataclasses import dataclass

import numpy as np

from colony.planning.arrays import Bools, Floats, Index
from colony.planning.pairings.search.problem import PairingProblem

SAME = 1e-9
"""Kinships and costs closer than this are one."""

CLOSED = 7.0
"""Stands for the cost of a pair that is not open, where costs are compared."""


@dataclass(frozen=True, eq=False)
class Kinds:
    """The kinds of parents, A of dams and then B of sires, and the Q pairs of them that are open.

    `kind` (a + b,) is the kind of each parent and `size` (A + B,) how many are of it;
    `kinship` (A + B, A + B) is that of two different animals of two kinds, or of the one
    animal with itself; `own` (A + B,) is what each of several has with itself beyond that.
    `cost` (Q,) is F and what else a litter costs by itself, `most` (A + B,) the litters that a
    kind can have, `required` (Q,) those it must have; `kind_pair` (P,) is the pair of kinds of
    each open pair. Dams of one `group` (A,) count for the same quotas.
    """

    kind: Index
    size: Index
    dams: int
    kinship: Floats
    own: Floats
    dam: Index
    sire: Index
    cost: Floats
    most: Index
    required: Index
    kind_pair: Index
    group: Index
    quotas: tuple[tuple[Bools, int], ...]

    def counts(self, chosen: Index) -> Index:
        """Count the litters of each pair of kinds in a plan, shape (Q,)."""
        return np.bincount(self.kind_pair[chosen], minlength=len(self.cost))

    def litters_of(self, counts: Index | Floats) -> Floats:
        """Litters of each kind, shape (A + B,)."""
        size = len(self.size)
        both = np.bincount(self.dam, counts, size) + np.bincount(
            self.dams + self.sire, counts, size
        )
        return both.astype(float)


def kinds(problem: PairingProblem) -> Kinds:
    """Take together the animals of a problem without tanks that are alike to every plan."""
    goal = problem.objective
    first = _first_alike(problem)
    heads, kind, size = np.unique(first, return_inverse=True, return_counts=True)
    dams = int((heads < goal.dams).sum())
    kinship = goal.kinship[np.ix_(heads, heads)].copy()
    own = np.zeros(len(heads))
    for number in np.flatnonzero(size > 1):
        head, other = np.flatnonzero(kind == number)[:2]
        kinship[number, number] = goal.kinship[head, other]
        own[number] = goal.kinship[head, head] - goal.kinship[head, other]
    sires = len(heads) - dams
    flat = kind[goal.dam] * sires + kind[goal.dams + goal.sire] - dams
    open_flat, at, kind_pair = np.unique(flat, return_index=True, return_inverse=True)
    signs = np.array([of for of, _ in problem.quotas], dtype=int).reshape(-1, goal.dams)
    group = np.unique(signs[:, heads[:dams]], axis=1, return_inverse=True)[1].ravel()
    return Kinds(
        kind=kind,
        size=size,
        dams=dams,
        kinship=kinship,
        own=own,
        dam=open_flat // sires,
        sire=open_flat % sires,
        cost=(goal.f + goal.linear)[at],
        most=size
        * np.concatenate([np.ones(dams, int), problem.capacity[heads[dams:] - goal.dams]]),
        required=np.bincount(kind_pair, problem.required, len(at)).astype(int),
        kind_pair=kind_pair,
        group=group if len(signs) else np.zeros(dams, int),
        quotas=tuple((of[heads[:dams]], count) for of, count in problem.quotas),
    )


def _first_alike(problem: PairingProblem) -> Index:
    """Number the first parent that each is alike to, shape (a + b,).

    Rows are compared by their products with one random vector: unlike rows have the same
    product with chance 0. Two alike differ only where each meets itself and the other.
    """
    goal, kinship = problem.objective, problem.objective.kinship
    size, dams = len(kinship), problem.objective.dams
    by = np.random.default_rng(0).random(size)
    with_itself = np.diag(kinship)
    product = kinship @ by - with_itself * by
    unlike = np.abs(product[:, None] - product - kinship * (by - by[:, None]))
    costs = np.full((dams, size - dams), CLOSED)
    costs[goal.dam, goal.sire] = goal.f + goal.linear
    asked = np.zeros(size)
    for of in (goal.dam, dams + goal.sire):
        asked[of[problem.required]] = 1 + of[problem.required]
    sides = np.concatenate([costs @ by[dams:], costs.T @ by[:dams] + CLOSED * size])
    most = np.concatenate([np.zeros(dams), problem.capacity])
    for fact in (with_itself, sides, most, asked, *_members(problem)):
        unlike = np.maximum(unlike, np.abs(fact[:, None] - fact))
    first: Index = (unlike < SAME).argmax(axis=1)
    return first


def _members(problem: PairingProblem) -> list[Floats]:
    sires = np.zeros(len(problem.capacity))
    return [np.concatenate([of.astype(float), sires]) for of, _ in problem.quotas]


def pairs_of(kinds: Kinds, problem: PairingProblem, counts: Index) -> Index:
    """Choose animals for a plan of kinds: those of one tank first, litters even among sires.

    Returns the numbers of open pairs, `counts` of each pair of kinds.
    """
    goal, left = problem.objective, counts.copy()
    litters = kinds.litters_of(counts)[kinds.dams :].astype(int)
    even, over = np.divmod(litters, kinds.size[kinds.dams :])
    sire_kind = kinds.kind[goal.dams :] - kinds.dams
    free, had, chosen = np.ones(goal.dams, dtype=bool), np.zeros(len(sire_kind), int), []
    order = np.lexsort((problem.moves, ~problem.required))
    for most in (0, 1):
        for pair in order.tolist():
            dam, sire = goal.dam[pair], goal.sire[pair]
            of = sire_kind[sire]
            one_more = had[sire] == even[of] and over[of] and most
            if not (
                left[kinds.kind_pair[pair]] and free[dam] and (had[sire] < even[of] or one_more)
            ):
                continue
            over[of] -= one_more
            free[dam] = False
            had[sire] += 1
            left[kinds.kind_pair[pair]] -= 1
            chosen.append(pair)
    return np.array(sorted(chosen), dtype=np.intp)
