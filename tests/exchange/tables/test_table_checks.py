"""What rows of one noun get wrong, whatever file they come from."""

from datetime import date

from colony.exchange.folder.noun import NounRow
from colony.exchange.folder.nouns import BY_NAME
from colony.exchange.tables.changes import change
from colony.exchange.tables.checks import (
    against_rules,
    names_of_nothing,
    transponders_twice,
    without_repeats,
)
from colony.exchange.tables.parents import by_tag, litters_by_code, with_parents
from colony.exchange.tables.reading import Source
from colony.exchange.tables.sires import sires_of
from colony.notation.days import Day
from colony.notation.shares import SireShare
from colony.records import Animal
from colony.records.rules import rules_of

ANIMALS, SOURCE = BY_NAME["animals"], Source("animals.csv")


def animal(at: int, tag: str, **values: object) -> NounRow:
    """One row of animals, with what an empty cell means for the rest."""
    empty = {column.name: column.empty for column in ANIMALS.columns}
    return NounRow(at, empty | {"tag": tag} | values)


def test_a_row_twice_is_left_out_and_is_a_fault_where_it_differs() -> None:
    """Upper and lower case are one key; the columns that differ are named."""
    rows = [animal(2, "A1", sex="F"), animal(3, "a1", sex="F"), animal(4, "A1", sex="M")]
    single, faults = without_repeats(SOURCE, ANIMALS, rows)
    assert [row.line for row in single] == [2]
    assert [(fault.line, fault.column) for fault in faults] == [(4, "tag")]
    assert "another sex" in faults[0].problem


def test_a_row_is_held_to_the_rules_of_its_table() -> None:
    """The fault is in the column that the rule names, in the words of the rule."""
    rows = [
        animal(2, "A1"),
        animal(3, "A2", status="sold"),
        animal(4, "A3", dam="A1", litter="L1"),
        animal(
            5,
            "A4",
            status="died",
            born=Day(date(2026, 3, 9), "day"),
            ended_on=date(2026, 3, 8),
        ),
    ]
    faults = list(against_rules(SOURCE, ANIMALS, rows, rules_of(Animal)))
    assert [(f.line, f.column) for f in faults] == [(3, "status"), (4, "dam"), (5, "ended_on")]
    assert faults[2].problem.startswith("ended_on must not come before born")


def test_a_name_of_nothing_is_a_fault_and_says_what_is_near() -> None:
    """Also among possible sires; a noun of which nothing is known is not asked."""
    sires = (SireShare("Bo", 0.5), SireShare("Nobody", 0.25), SireShare(None, 0.25))
    rows = [animal(2, "A1", dam="Amla", possible_sires=sires, litter="L9")]
    known = {"animals": {"alma": "Alma", "bo": "Bo"}}
    faults = list(names_of_nothing(SOURCE, ANIMALS, rows, known))
    assert [fault.column for fault in faults] == ["dam", "possible_sires"]
    assert "did you mean Alma" in faults[0].problem


def test_a_transponder_is_of_one_animal() -> None:
    """Whether the other stands in the book or earlier in the file; a row may repeat its own."""
    chip, other = "999000012345678", "999000012345679"
    rows = [
        animal(2, "a1", transponder=chip),
        animal(3, "A2", transponder=chip),
        animal(4, "A3", transponder=other),
        animal(5, "A4", transponder=other),
    ]
    faults = list(transponders_twice(SOURCE, rows, [animal(0, "A1", transponder=chip)]))
    assert [(fault.line, fault.column) for fault in faults] == [
        (3, "transponder"),
        (5, "transponder"),
    ]


def test_a_pup_has_the_parents_of_its_litter() -> None:
    """What a test has settled for it goes first; one sire beyond doubt is its sire."""
    litters = litters_by_code(
        [NounRow(0, {"code": "L1", "dam": "Alma", "sires": (SireShare("Bo", 1.0),)})]
    )
    rows = [animal(2, "P1", litter="l1"), animal(3, "P2", litter="L1", sire="Caro"), animal(4, "X")]
    found = by_tag(with_parents(rows, litters))
    assert [(row.values["dam"], sires_of(row.values)) for row in found.values()] == [
        ("Alma", (SireShare("Bo", 1.0),)),
        ("Alma", (SireShare("Caro", 1.0),)),
        (None, ()),
    ]


def test_only_what_differs_from_the_book_is_changed() -> None:
    """A name in another case is the same; what a row does not say stays."""
    booked = animal(0, "A1", dam="Alma", sex="F", line="Ember")
    assert change(ANIMALS, {"dam": "ALMA", "sex": "F"}, booked) is None
    changed = change(ANIMALS, {"dam": "ALMA", "line": "Quarry"}, booked)
    assert changed is not None
    assert (changed.values, changed.booked) == ({"line": "Quarry"}, booked)
    new = change(ANIMALS, {"tag": "A2"}, None)
    assert new is not None
    assert new.values["status"] == "present"
