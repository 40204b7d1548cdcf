"""Charts and paths in the terminal."""

import numpy as np
import pytest

from colony.papers.chart.members import Scope
from colony.papers.chart.terminal import chart_lines
from colony.papers.chart.why import why_lines
from colony.pedigree.graph.graph import Doubt, Pedigree
from colony.pedigree.paths.paths import CommonAncestor, Path, Why, why_inbred


def a_family() -> Pedigree:
    """A pup of half sibs through Sam, who may be the sire of its own pup too."""
    return Pedigree(
        tags=("Sam", "Dora", "Eva", "Ada", "Bert", "Xena", "Pup"),
        dam=np.array([-1, -1, -1, 1, 2, 3, 5]),
        sire=np.array([-1, -1, -1, 0, 0, 4, -1]),
        sexes="MFFFMFU",
        doubts=(Doubt((6,), (0, -1), (0.75, 0.25)),),
    )


def test_a_chart_in_the_terminal_unfolds_everybody_once() -> None:
    """Sam is met a second time and only named."""
    assert chart_lines(a_family(), Scope(5, up=3, down=1, dead=frozenset({1}))) == [
        "○ Xena  F 0.1250  2.0 gen",
        "├─ dam ○ Ada  F 0.0000  1.0 gen",
        "│  ├─ dam ○ Dora  founder  dead",
        "│  └─ sire □ Sam  founder",
        "└─ sire □ Bert  F 0.0000  1.0 gen",
        "   ├─ dam ○ Eva  founder",
        "   └─ sire Sam (above)",
        "",
        "Pups of Xena",
        "└─ ◇ Pup  F 0.1875  0.000\N{EN DASH}0.250  1.9 gen  with Sam",
    ]


def test_a_sire_in_doubt_is_marked_with_his_share() -> None:
    """A question mark and the percentage; no meaning by colour."""
    lines = chart_lines(a_family(), Scope(6, up=1))
    assert lines[1:] == ["├─ dam ○ Xena  F 0.1250  2.0 gen", "└─ sire? 75% □ Sam  founder"]


def test_no_line_is_wider_than_the_terminal() -> None:
    """Cut with an ellipsis."""
    lines = chart_lines(a_family(), Scope(5, up=3, down=1), width=20)
    assert max(map(len, lines)) == 20
    assert lines[0] == "○ Xena  F 0.1250  2…"


def test_a_path_leads_down_from_the_common_ancestor_on_both_sides() -> None:
    """The two lines meet in the pup."""
    assert why_lines(why_inbred(a_family(), 5), "Xena") == [
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
