"""How things are drawn: columns, bars, time lines, families, colours; no book needed."""

from datetime import date, timedelta
from importlib import import_module

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.color import Color
from textual.geometry import Region
from textual.theme import Theme

from colony.acts.pedigree.family import FamilyMember
from colony.screens.frame.themes import BLACKWATER, SANDBAR, SIXTEEN, theme_for
from colony.screens.widgets.bars import bar
from colony.screens.widgets.columns import Column, lay_out
from colony.screens.widgets.family_tree import draw_family
from colony.screens.widgets.steps import nearest
from colony.screens.widgets.time_line import TimeLine

COLUMNS = (
    Column("Tag", 8),
    Column("What", 10, grows=True),
    Column("Late", 6, from_screen=60, right=True),
)


@given(st.integers(30, 200), st.text(max_size=60), st.text(max_size=60))
def test_a_line_never_exceeds_its_width(width: int, tag: str, what: str) -> None:
    """Whatever stands in the cells, a line has the width that there is, and holds no control code."""
    line = lay_out(COLUMNS, width).line((tag, what, "9"), "!", "wrong").plain
    assert len(line.rstrip()) <= width
    assert line.isprintable()


def test_columns_come_with_the_room_for_them() -> None:
    """A narrow screen leaves columns out; a wide one shows them, and one column grows."""
    narrow, wide = lay_out(COLUMNS, 40), lay_out(COLUMNS, 80)
    assert "Late" not in narrow.head()
    assert wide.head().endswith("Late")
    assert [width for _, _, width in wide.shown] == [8, 80 - 2 - 8 - 6 - 4, 6]


LISTS = (
    *("animals.animals", "book.day_lines", "book.history", "litters.page", "tanks.move_plan"),
    *("pairings.plan", "pairings.pairings", "pairings.partners", "pups.pups", "care.round"),
    "tanks.page",
)
"""The screens that show a list, by their modules."""


@pytest.mark.parametrize("width", [79, 73, 113], ids=["80", "120 with its pane", "160 with it"])
@pytest.mark.parametrize("name", LISTS)
def test_no_list_is_wider_than_its_screen(name: str, width: int) -> None:
    """No column of any list is cut off at 80 columns, nor where a pane stands beside it."""
    columns = import_module(f"colony.screens.{name}").COLUMNS
    layout = lay_out(columns, width)
    assert len(layout.line(["x" * 50] * len(columns), "!", "").plain) == width
    assert all(shown >= least(column) for _, column, shown in layout.shown)


def least(column: Column) -> int:
    """What a column needs: its own width, or a few letters where it gives to the others."""
    return min(column.width, 8) if column.grows else column.width


def test_the_last_of_fewer_cells_runs_on() -> None:
    """A reason may use the whole line behind the first cell, and is cut with a mark."""
    line = lay_out(COLUMNS, 40).line(("S1", "x" * 100), "", "").plain
    assert line.startswith("  S1")
    assert len(line) == 40
    assert line.endswith("…")


@given(st.floats(0, 3), st.integers(4, 40))
def test_a_bar_is_as_long_as_its_share(share: float, width: int) -> None:
    """Full blocks stand for the share; what is beyond the whole has a mark at its end."""
    drawn = bar(share, width)
    assert len(drawn) == width
    assert drawn.count("█") == min(round(share * width), width) - (share > 1)
    assert drawn.endswith("►") == (share > 1)


def test_a_window_is_drawn_where_its_days_are() -> None:
    """On a line of 26 cells a cell is a week: earliest, likely and latest stand in their weeks."""
    today = date(2026, 3, 2)
    days = [today + timedelta(weeks=weeks) for weeks in (3, 5, 9)]
    drawn = TimeLine(today).window(*days)(26)
    assert drawn[3:10] == "▒▒█▒▒▒▒"
    assert "▒" not in drawn[:3] + drawn[10:]
    axis = TimeLine(today).axis()(26)
    assert axis.startswith("now Apr")


def test_a_family_is_drawn_with_its_doubt() -> None:
    """Two possible sires stand above the dam, each with his share."""
    dam = FamilyMember(
        "Alma", "F", dam=FamilyMember("Edda", "F"), sires=(FamilyMember("Gino", "M"),)
    )
    pup = FamilyMember(
        "P1", "U", dam=dam, sires=(FamilyMember("Bruno", "M", 0.7), FamilyMember("Caro", "M", 0.3))
    )
    assert draw_family(pup, 3).splitlines() == [
        "     ┌─ Bruno m 70%",
        "     ├─ Caro m 30%",
        "P1 ? │         ┌─ Gino m",
        "     └─ Alma f └─ Edda f",
    ]


def test_an_arrow_leads_to_the_next_box_in_its_direction() -> None:
    """Boxes in line come first; at the edge nothing happens."""
    boxes = [Region(x, y, 10, 4) for y in (0, 4) for x in (0, 12, 24)]
    assert nearest(boxes[0], boxes, 1, 0) == 1
    assert nearest(boxes[1], boxes, 0, 1) == 4
    assert nearest(boxes[5], boxes, -1, 0) == 4
    assert nearest(boxes[0], boxes, -1, 0) is None


@pytest.mark.parametrize("theme", [BLACKWATER, SANDBAR], ids=lambda theme: theme.name)
def test_every_text_stands_out_from_its_ground(theme: Theme) -> None:
    """At least 4.5 to 1 (W3C, Web Content Accessibility Guidelines 2.1, 1.4.3 Contrast)."""
    grounds = (theme.background, theme.surface, theme.variables["cursor"])
    texts = (
        *(theme.foreground, theme.primary, theme.secondary, theme.accent, theme.success),
        *(theme.error, theme.variables["quiet"]),
    )
    for ground in grounds:
        for text in texts:
            assert contrast(Color.parse(text or ""), Color.parse(ground or "")) >= 4.5, (
                text,
                ground,
            )


def contrast(one: Color, other: Color) -> float:
    """Contrast ratio: (L1 + 0.05) / (L2 + 0.05) of the relative luminances (WCAG 2.1)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def luminance(color: Color) -> float:
    """Relative luminance of an sRGB colour (WCAG 2.1)."""
    parts = [part / 255 for part in (color.r, color.g, color.b)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_the_colours_fit_the_terminal() -> None:
    """Sixteen colours, or none, get the plain theme; a terminal with more gets the dark one."""
    assert theme_for("truecolor", no_color=False) == BLACKWATER.name
    assert theme_for("256", no_color=False) == BLACKWATER.name
    assert theme_for("standard", no_color=False) == SIXTEEN.name
    assert theme_for("truecolor", no_color=True) == SIXTEEN.name
