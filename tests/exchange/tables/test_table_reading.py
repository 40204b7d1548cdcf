"""Read the rows of any file: every fault is listed, none raised."""

from colony.exchange.tables.reading import NOTHING, CellReader, Source, read_rows
from colony.exchange.text.delimited import Row, Table
from colony.refusals.cells import NotAWholeNumber


def size(cell: str) -> object:
    """A whole number; a stroke says nothing."""
    if cell == "-":
        return NOTHING
    if not cell.isdigit():
        raise NotAWholeNumber(cell, 1)
    return int(cell)


def test_every_cell_that_cannot_be_read_is_a_fault_under_the_files_own_heading() -> None:
    """Line, heading and cell are told; a row without a needed field is left out, the others stay."""
    rows = (("A", "3"), ("B", "x"), ("C", "-"), ("D", "4", "more"), ("E",))
    table = Table(
        "f.csv", Row(1, ("Ring", "Size")), tuple(Row(n, r) for n, r in enumerate(rows, 2))
    )
    readers = [CellReader("tag", 0, str), CellReader("size", 1, size)]
    done: list[int] = []
    found, faults = read_rows(
        Source("f.csv", {"size": "Size"}), table, readers, ["tag"], done.append
    )
    assert [dict(row.values) for row in found] == [
        {"tag": "A", "size": 3},
        {"tag": "B"},
        {"tag": "C"},
        {"tag": "D", "size": 4},
        {"tag": "E"},
    ]
    assert [dict(row.cells) for row in found][2] == {"tag": "C"}
    assert [(fault.line, fault.column, fault.value) for fault in faults] == [
        (3, "Size", "x"),
        (5, "", "more"),
        (6, "Size", ""),
    ]
    assert done == [1, 2, 3, 4, 5]
    needing, _ = read_rows(Source("f.csv"), table, readers, ["tag", "size"])
    assert [row.values["tag"] for row in needing] == ["A", "D"]
