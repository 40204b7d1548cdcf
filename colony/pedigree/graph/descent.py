"""Genes down and up the pedigree: what each node takes of every other.

With T the lower triangle of what is taken and D the Mendelian parts, all kinship is T D T'
(Henderson 1976; Quaas 1976). A vector goes through T and T' in one pass each.
"""

import numpy as np

from colony.pedigree.graph.nodes import BoolArray, FloatArray, Nodes
from colony.pedigree.kinship.sweep import sweep


def traced_up(nodes: Nodes, weights: FloatArray, cut: BoolArray | None = None) -> FloatArray:
    """T' w: weights on nodes, (N,), given on to all their ancestors by the shares taken.

    Parameters
    ----------
    cut
        Nodes, (N,), whose parents are left out as if nobody knew them.
    """
    traced = np.append(weights, 0.0)
    for batch in reversed(nodes.by_step):
        some = batch if cut is None else batch[~cut[batch]]
        np.add.at(traced, nodes.first[some], traced[some] * nodes.first_share[some])
        np.add.at(traced, nodes.second[some], traced[some] * nodes.second_share[some])
    return traced[:-1]


def passed_down(nodes: Nodes, values: FloatArray, cut: BoolArray | None = None) -> FloatArray:
    """T v: values of nodes, (N,) or (N, m), each with the shares taken of its ancestors' added.

    Parameters
    ----------
    cut
        Nodes, (N,), whose parents are left out as if nobody knew them.
    """
    passed = np.concatenate((values, np.zeros_like(values[:1])))
    shape = (-1, *(1,) * (values.ndim - 1))
    for batch in nodes.by_step:
        some = batch if cut is None else batch[~cut[batch]]
        passed[some] += passed[nodes.first[some]] * nodes.first_share[some].reshape(shape)
        passed[some] += passed[nodes.second[some]] * nodes.second_share[some].reshape(shape)
    return passed[:-1]


def mendelian_parts(nodes: Nodes) -> FloatArray:
    """D: the own kinship of each node that its known parents do not explain, (N,).

    For an animal with both parents known it is 1/4 - (F_dam + F_sire) / 8, for a founder 1/2.
    """
    found = sweep(nodes)
    own = np.append(found.own, 0.0)
    first, second = nodes.first_share, nodes.second_share
    explained = first**2 * own[nodes.first] + second**2 * own[nodes.second]
    explained += 2 * first * second * found.between_parents
    return np.asarray(found.own - explained)
