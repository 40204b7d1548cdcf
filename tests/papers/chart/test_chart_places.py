"""Where everybody stands on a chart."""

from itertools import combinations

from chart_pedigrees import a_trio, charted
from hypothesis import given, settings

from colony.papers.chart.members import Scope, chart_members
from colony.papers.chart.places import chart_places
from colony.pedigree.graph.graph import Pedigree


def test_a_pup_stands_in_the_middle_below_its_parents() -> None:
    """The sire half a column to its left, the dam half a column to its right."""
    places = chart_places(chart_members(a_trio(), Scope(2, up=1)))
    assert places.column == {1: 0.5, 2: 1.0, 0: 1.5}
    assert places.row == {0: 0, 1: 0, 2: 1}
    assert (places.columns, places.rows) == (2.0, 2)


def test_neighbours_are_told_from_left_to_right() -> None:
    """Two of one row with nobody between stand side by side; a parent and its pup do not."""
    places = chart_places(chart_members(a_trio(), Scope(2, up=1)))
    assert places.neighbours(0) == [1, 0]
    assert places.are_side_by_side(0, 1)
    assert not places.are_side_by_side(0, 2)


@settings(max_examples=150, deadline=None)
@given(charted())
def test_parents_stand_above_their_pups_and_nobody_on_another(case: tuple[Pedigree, Scope]) -> None:
    """In every pedigree, however inbred; neighbours keep a column between them."""
    members = chart_members(*case)
    places = chart_places(members)
    assert set(places.row) == set(places.column) == set(members.generation)
    for family in members.families:
        for parent in family.parents:
            assert all(places.row[parent] < places.row[pup] for pup in family.pups)
    for one, other in combinations(places.row, 2):
        if places.row[one] == places.row[other]:
            assert abs(places.column[one] - places.column[other]) >= 1 - 1e-9
