"""Paths of inbreeding in the terminal."""

import pytest
from chart_pedigrees import half_sibs

from colony.papers.chart.why import why_lines
from colony.pedigree.paths.paths import CommonAncestor, Path, Why, why_inbred


def test_a_path_leads_down_from_the_common_ancestor_on_both_sides() -> None:
    """The two lines meet in the pup."""
    assert why_lines(why_inbred(half_sibs(), 5), "Xena") == [
        "Sam  adds 0.125000",
        "├─ Ada ──┐",
        "└─ Bert ─┴─ Xena",
    ]


def test_a_long_path_keeps_its_ends_and_counts_the_middle() -> None:
    """Eighty columns suffice."""
    names = tuple(f"Somebody {one}" for one in range(12))
    why = Why(0.1, (Path("Top", names, ("Side",), 0.1),), ())
    lines = why_lines(why, "Pup")
    assert max(map(len, lines)) <= 80
    assert "more)" in lines[1]
    assert lines[1].index("Somebody 11") < lines[1].index("more)") < lines[1].index("Somebody 0")


@pytest.mark.parametrize("paths", [1, 1200])
def test_too_many_paths_become_bars_by_ancestor(paths: int) -> None:
    """The longest bar is of what adds most."""
    ancestors = (CommonAncestor("Sam", paths, 0.2), CommonAncestor("Dora", 2, 0.05))
    first, second = why_lines(Why(0.25, (), ancestors), "X")
    assert first.count("█") == 4 * second.count("█") == 24
    assert f"{paths:,} path" in first
    assert first.endswith("paths") == (paths > 1)


def test_nothing_to_explain_draws_nothing() -> None:
    """An animal that is not inbred."""
    assert why_lines(Why(0.0, (), ()), "X") == []
