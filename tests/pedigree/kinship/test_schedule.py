"""Who is in the kinship table when."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from plain_pedigrees import family, pedigrees

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.kinship.schedule import schedule


@given(pedigrees(), st.data())
def test_parents_are_in_the_table_when_their_pups_are_read(
    pedigree: Pedigree, data: st.DataObject
) -> None:
    """Every node is read once; nobody leaves who is asked for, and the table is never fuller."""
    nodes = pedigree.nodes
    asked = data.draw(st.lists(st.booleans(), min_size=len(nodes), max_size=len(nodes)))
    stays = np.array(asked, dtype=np.bool_)
    plan = schedule(nodes, stays)
    inside: set[int] = set()
    readable: set[int] = set()  # one that leaves is there until another takes its slot
    fullest, seen = 0, []
    for move in plan.moves:
        for node in move.read.tolist():
            parents = {int(nodes.first[node]), int(nodes.second[node])} - {-1}
            assert parents <= readable
            seen.append(node)
        entering = set(move.enter.tolist())
        assert not entering & inside
        for node in entering:
            assert {int(nodes.first[node]), int(nodes.second[node])} - {-1} <= readable
        inside |= entering
        readable = set(inside) if entering else readable
        fullest = max(fullest, len(inside))
        assert set(move.leave.tolist()) <= inside
        inside -= set(move.leave.tolist())
    assert sorted(seen) == list(range(len(nodes)))
    assert fullest == plan.slots
    assert set(np.flatnonzero(stays).tolist()) <= inside


def test_a_long_line_of_descent_needs_a_narrow_table() -> None:
    """A hundred generations of one dam and a new sire each: never more than a few at once."""
    line = {f"G{at + 1}": (f"G{at}", f"S{at}") for at in range(100)}
    nodes = family(line).nodes
    assert schedule(nodes, np.zeros(len(nodes), dtype=np.bool_)).slots < 8
