"""What each common ancestor adds to the kinship of two animals, and by how many paths."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.nodes import FloatArray, Nodes


@dataclass(frozen=True, eq=False)
class AncestorShares:
    """By node, (N,): what it adds to the kinship of the two, and how many paths lead through it."""

    adds: FloatArray
    paths: FloatArray


def ancestor_shares(nodes: Nodes, own: FloatArray, first: int, second: int) -> AncestorShares:
    """Split the kinship of two different nodes among their common ancestors.

    A pair of lineages, one from each, is followed upward, the younger first, until they meet for
    the first time. All pairs are followed at once, as weights on pairs of nodes.

    Parameters
    ----------
    own
        Kinship of each node with itself, (N,).
    """
    adds, paths = np.zeros(len(nodes)), np.zeros(len(nodes))
    unknown = len(nodes)
    weight, count = np.zeros((unknown + 1,) * 2), np.zeros((unknown + 1,) * 2)
    weight[first, second] = count[first, second] = 1.0
    for node in nodes.order[::-1].tolist():
        adds[node], paths[node] = weight[node, node] * own[node], count[node, node]
        weight[node, node] = count[node, node] = 0.0
        for parent, share in (
            (int(nodes.first[node]), nodes.first_share[node]),
            (int(nodes.second[node]), nodes.second_share[node]),
        ):
            if parent != UNKNOWN:
                weight[parent] += share * weight[node]
                weight[:, parent] += share * weight[:, node]
                count[parent] += count[node]
                count[:, parent] += count[:, node]
    return AncestorShares(adds, paths)
