"""The greatest flow against networkx's own, and what an arc goes on carrying."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.solver.flow import SINK, SOURCE, Network

arcs = st.dictionaries(
    st.tuples(st.integers(0, 5), st.integers(0, 5)).filter(lambda arc: arc[0] < arc[1]),
    st.integers(0, 20),
    max_size=12,
)


@given(arcs)
def test_the_flow_is_the_greatest(arcs: dict[tuple[int, int], int]) -> None:
    """From node 0 to node 5 flows as much as networkx finds, and no arc carries more than it may."""
    network, graph = Network(), nx.DiGraph()
    graph.add_edge("in", 0, capacity=100)
    graph.add_edge(5, "out", capacity=100)
    network.join(SOURCE, 0, 100)
    network.join(5, SINK, 100)
    for (start, end), capacity in arcs.items():
        network.join(start, end, capacity)
        graph.add_edge(start, end, capacity=capacity)
    assert network.fill() == nx.maximum_flow_value(graph, "in", "out")
    assert all(0 <= network.flows(*arc) <= capacity for arc, capacity in arcs.items())


def test_what_reaches_the_sink_by_an_arc_goes_on_reaching_it_by_that_arc() -> None:
    """A second filling adds only what is left, and takes nothing from the first."""
    network = Network()
    network.join(SOURCE, "day", 10)
    network.join("day", "first", 7)
    network.join("first", SINK, 7)
    assert network.fill() == 7
    network.join("day", "second", 9)
    network.join("second", SINK, 9)
    assert network.fill() == 3
    assert (network.flows("day", "first"), network.flows("day", "second")) == (7, 3)
