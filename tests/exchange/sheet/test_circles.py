"""Animals that would be their own ancestors."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.sheet.circles import find_circles

Parents = dict[str, list[str]]


@st.composite
def parents(draw: st.DrawFn) -> Parents:
    """Any parents among up to nine animals, circles and all, none its own parent."""
    animals = [str(n) for n in range(draw(st.integers(1, 9)))]
    some = st.lists(st.sampled_from([*animals, "not in the file"]), max_size=2, unique=True)
    return {pup: [p for p in draw(some) if p != pup] for pup in animals}


@given(parents())
def test_without_the_closing_links_nothing_goes_round(kin: Parents) -> None:
    """Agrees with networkx on whether there is a circle, and every circle found is one."""
    graph = nx.DiGraph((pup, parent) for pup, named in kin.items() for parent in named)
    circles = find_circles(kin)
    assert bool(circles) != nx.is_directed_acyclic_graph(graph)
    for circle in circles:
        assert nx.is_path(graph, [*circle, circle[0]])
        assert len({*circle}) == len(circle)
    graph.remove_edges_from((circle[-1], circle[0]) for circle in circles)
    assert nx.is_directed_acyclic_graph(graph)


def test_a_long_line_of_descent_is_searched_without_recursion() -> None:
    """Fifty thousand generations end in one circle, and are found."""
    kin = {str(n): [str((n + 1) % 50_000)] for n in range(50_000)}
    (circle,) = find_circles(kin)
    assert len(circle) == 50_000
