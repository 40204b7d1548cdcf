"""Charts in the terminal."""

from chart_pedigrees import half_sibs

from colony.papers.chart.members import Scope
from colony.papers.chart.terminal import chart_lines


def test_a_chart_in_the_terminal_unfolds_everybody_once() -> None:
    """Sam is met a second time and only named."""
    assert chart_lines(half_sibs(), Scope(5, up=3, down=1, dead=frozenset({1}))) == [
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
    lines = chart_lines(half_sibs(), Scope(6, up=1))
    assert lines[1:] == ["├─ dam ○ Xena  F 0.1250  2.0 gen", "└─ sire? 75% □ Sam  founder"]


def test_no_line_is_wider_than_the_terminal() -> None:
    """Cut with an ellipsis."""
    lines = chart_lines(half_sibs(), Scope(5, up=3, down=1), width=20)
    assert max(map(len, lines)) == 20
    assert lines[0] == "○ Xena  F 0.1250  2…"
