"""Who stands on a chart."""

from chart_pedigrees import XENA, a_family

from colony.papers.chart.members import Scope, chart_members


def test_two_branches_that_meet_share_their_ancestors() -> None:
    """Dora and Sam are grandparents of both parents, and are a member and a family once."""
    members = chart_members(a_family(), XENA)
    assert sorted(members.generation) == list(range(11))
    (top,) = [family for family in members.families if family.parents == (0, 1)]
    assert sorted(top.pups) == [4, 5]


def test_only_the_generations_asked_for_are_drawn() -> None:
    """Two up, none down: parents and grandparents."""
    members = chart_members(a_family(), Scope(8, up=2))
    assert members.generation == {8: 0, 7: 1, 6: 1, 5: 2, 3: 2, 4: 2, 2: 2}
