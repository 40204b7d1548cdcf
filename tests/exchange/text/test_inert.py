"""Cells that a spreadsheet would run."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.text.inert import make_inert, undo_inert


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_every_start_of_a_formula_is_made_inert(start: str) -> None:
    """The characters that OWASP names under "CSV Injection" never come first in a cell."""
    assert make_inert(f"{start}1+1") == f"'{start}1+1"


@given(st.text(alphabet="'=+-@\t\ra1 ", max_size=6))
def test_making_inert_is_undone_exactly(cell: str) -> None:
    """An apostrophe of the breeder's own survives, also before a formula."""
    inert = make_inert(cell)
    assert undo_inert(inert) == cell
    assert inert[:1] not in tuple("=+-@\t\r")


def test_a_plain_cell_is_left_alone() -> None:
    """Names with an apostrophe in front or inside are not touched."""
    assert [undo_inert(make_inert(cell)) for cell in ("'t Zand", "O'Hara", "")] == [
        "'t Zand",
        "O'Hara",
        "",
    ]
    assert make_inert("'t Zand") == "'t Zand"
