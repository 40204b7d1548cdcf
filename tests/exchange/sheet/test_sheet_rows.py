"""What a row of a sheet gets wrong beside what the book says."""

from datetime import date
from typing import Any

import pytest

from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.book import BookRows
from colony.exchange.sheet.meaning import ANIMALS
from colony.exchange.sheet.rows import check_rows
from colony.exchange.tables.reading import Source
from colony.exchange.text.faults import Fault
from colony.records import Animal
from colony.records.rules import rules_of
from colony.refusals.base import AnotherAct, act

KNOWN: dict[str, Any] = {column.name: column.empty for column in ANIMALS.columns} | {
    "tag": "A1",
    "sex": "F",
    "status": "present",
    "origin": "born here",
    "litter": "26-01",
    "dam": "Alma",
    "sire": "Bruno",
}


def faults_of(**cells: str) -> list[Fault]:
    """The faults of one row on A1, a pup of Alma and Bruno in tank T1."""
    book = BookRows(
        animals={"a1": NounRow(0, KNOWN)},
        tanks={"t1": "T1", "t2": "T2"},
        places={"a1": "T1"},
    )
    row = NounRow(2, {"tag": "a1", **cells}, {"tag": "a1", **cells})
    return check_rows(Source("x.csv"), [row], book, rules_of(Animal), date(2026, 3, 9))


@pytest.mark.parametrize(
    ("column", "cell", "remedy"),
    [
        ("sex", "M", act("animal edit", "A1", sex="M")),
        ("tank", "t2", act("tank move", "A1", "T2")),
        ("sire", "Carlo", act("litter edit", "26-01", sire="")),
    ],
)
def test_a_contradiction_names_the_act_that_would_change_the_book(
    column: str, cell: str, remedy: AnotherAct
) -> None:
    """As data, in the book's own spelling; the sentence itself names no command."""
    (fault,) = faults_of(**{column: cell})
    assert (fault.line, fault.column, fault.value) == (2, column, cell)
    assert fault.remedies == (remedy,)
    assert remedy.name not in fault.problem


def test_a_row_that_says_what_the_book_says_has_no_fault() -> None:
    """In any case of the letters."""
    assert faults_of(sex="F", tank="t1", dam="ALMA") == []
