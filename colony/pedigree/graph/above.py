"""The part of a pedigree that some nodes descend from: all that asking for them may cost."""

from dataclasses import dataclass

import numpy as np

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.nodes import IntArray, Nodes


@dataclass(frozen=True, eq=False)
class Above:
    """Some nodes and all their ancestors as a pedigree of their own.

    Attributes
    ----------
    nodes
        The m of them.
    members
        Position of each in the whole, (m,).
    place
        Position here of each node of the whole, (N + 1,); -1 for others and for unknown ones.
    """

    nodes: Nodes
    members: IntArray
    place: IntArray


def above(nodes: Nodes, asked: IntArray) -> Above:
    """Take the nodes asked for and their ancestors out of a pedigree."""
    members = np.flatnonzero(nodes.ancestors_of(asked))
    place = np.full(len(nodes) + 1, UNKNOWN, dtype=np.int64)
    place[members] = np.arange(len(members))
    choices = tuple(
        (int(place[node]), tuple((int(place[sire]), share) for sire, share in possible))
        for node, possible in nodes.choices
        if place[node] != UNKNOWN
    )
    part = Nodes(
        animals=int(np.searchsorted(members, nodes.animals)),
        first=place[nodes.first[members]],
        second=place[nodes.second[members]],
        first_share=nodes.first_share[members],
        second_share=nodes.second_share[members],
        given_own=nodes.given_own[members],
        choices=choices,
    )
    return Above(part, members, place)
