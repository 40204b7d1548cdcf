"""The ancestors, founders or not, through which the genes of the living came."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.graph.above import above
from colony.pedigree.graph.descent import passed_down, traced_up
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray

MOST_ANCESTORS = 200
NOTHING_LEFT = 1e-12


@dataclass(frozen=True, eq=False)
class EffectiveAncestors:
    """Ancestors that explain the living, and how many equal ones would do as well.

    Attributes
    ----------
    ancestors
        Their positions, (a,), what explains most first.
    parts
        What each explains that those before it do not, (a,).
    number
        1 / sum of squared parts; what is not explained yet taken as nothing.
    at_least
        The same with what is not explained in parts as large as the last, so that the number
        of all ancestors lies between the two. They are equal when everything is explained.
    """

    ancestors: IntArray
    parts: FloatArray
    number: float
    at_least: float


def effective_ancestors(
    pedigree: Pedigree, living: IntArray, most: int = MOST_ANCESTORS
) -> EffectiveAncestors:
    """Find the ancestors with the greatest marginal contributions to the living, (k,).

    Boichard, Maignel & Verrier 1997, The value of using probabilities of gene origin to measure
    genetic variability in a population, Genet. Sel. Evol. 29:5-23: the ancestor that explains
    most is taken, its parents are forgotten, and what it explains is set aside; again until all
    is explained or `most` are taken. It shows bottlenecks that the effective founders hide. Of
    ancestors that explain alike the older generation is taken (our own rule; the number can
    depend on it).
    """
    part = above(pedigree.nodes, living)
    nodes = part.nodes
    weights = np.bincount(part.place[living], minlength=len(nodes)) / len(living)
    by_age = nodes.order[nodes.order < nodes.animals]
    chosen = np.zeros(len(nodes), dtype=np.bool_)
    found: list[tuple[int, float]] = []
    while len(found) < most:
        explained = passed_down(nodes, chosen.astype(np.float64), cut=chosen)
        marginal = traced_up(nodes, weights, cut=chosen) * (1 - explained)
        best = int(by_age[np.argmax(np.round(marginal[by_age], 12))])
        if marginal[best] < NOTHING_LEFT:
            break
        found.append((best, float(marginal[best])))
        chosen[best] = True
    parts = np.array([part_of for _, part_of in found])
    squares, left = float(np.square(parts).sum()), max(0.0, 1 - float(parts.sum()))
    return EffectiveAncestors(
        ancestors=part.members[[node for node, _ in found]],
        parts=parts,
        number=1 / squares,
        at_least=1 / (squares + left * float(parts[-1])),
    )
