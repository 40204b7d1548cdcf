"""Twenty deliberate faults among five thousand rows."""

import random
import time
from datetime import date, timedelta
from pathlib import Path

from sqlmodel import select

from colony.acts.book.importing.imports import import_path
from colony.records import Animal
from colony.store.book import begin_book

ROWS = 5_000
HEAD = "tag,sex,born,dam,sire,species,width,chip,held back,status,died,note"
FIELDS = HEAD.split(",")


def pedigree() -> list[dict[str, str]]:
    """A sound pedigree of five thousand, parents older than their pups, in no order of age."""
    chance = random.Random(5)  # noqa: S311 - a pedigree, no secret
    rows = []
    for number in range(ROWS):
        born = date(1990, 1, 1) + timedelta(days=2 * number)
        row = dict.fromkeys(FIELDS, "") | {"tag": f"R{number}", "born": born.isoformat()}
        row |= {"sex": "FM"[number % 2], "species": "motoro", "width": "14.5"}
        if number >= 1000:
            row["dam"] = f"R{2 * chance.randrange((number - 800) // 2)}"
            row["sire"] = f"R{2 * chance.randrange((number - 800) // 2) + 1}"
        rows.append(row)
    chance.shuffle(rows)
    return rows


FAULTS: list[tuple[str, dict[str, str], str]] = [
    ("tag", {"tag": ""}, "missing"),
    ("tag", {"tag": "-R"}, "cannot be a tag"),
    ("sex", {"sex": "lady"}, "no sex"),
    ("born", {"born": "3/4/2015"}, "the order of dates"),
    ("born", {"born": "2015-02-30"}, "no date"),
    ("born", {"born": "2031-01-01"}, "not come yet"),
    ("dam", {"dam": "R1"}, "male"),
    ("sire", {"sire": "R2"}, "female"),
    ("dam", {"dam": "{tag}"}, "own parent"),
    ("sire", {"sire": "R4999"}, "cannot be a parent"),
    ("sire", {"sire": "R1=0.7 R3=0.2"}, "sum to 0.9"),
    ("sire", {"sire": "R1/R1"}, "twice"),
    ("species", {"species": "mottoro"}, "no species"),
    ("width", {"width": "wide"}, "no length"),
    ("width", {"width": "14 furlongs"}, "no unit"),
    ("chip", {"chip": "12345"}, "15 digits"),
    ("held back", {"held back": "perhaps"}, "no yes or no"),
    ("died", {"died": "1980-01-01"}, "before it was born"),
]
"""Faults of one row each: the column, what is put there, and what is said of it."""


def with_faults(rows: list[dict[str, str]]) -> list[tuple[int, str, str]]:
    """Put twenty different faults among the rows, and say where each stands and what it is."""
    # The last-born have no pups, so that a fault of theirs is nobody else's.
    childless = [
        place for place, row in enumerate(rows) if int(row["tag"][1:]) > 4300 and row["sex"] == "F"
    ]
    expected = []
    for place, (column, cells, says) in zip(childless, FAULTS, strict=False):
        rows[place] |= {key: cell.format(**rows[place]) for key, cell in cells.items()}
        expected.append((place + 2, column, says))
    # A circle of two females whose birth dates could not tell.
    one, other = childless[30], childless[31]
    for pup, dam in ((one, other), (other, one)):
        rows[pup] |= {"dam": rows[dam]["tag"], "born": ""}
    rows.append(dict(rows[childless[40]]) | {"note": "written again"})
    return [*expected, (other + 2, "dam", "circle"), (len(rows) + 1, "tag", "already")]


def test_exactly_the_twenty_faults_are_listed(tmp_path: Path) -> None:
    """Each fault once, by line and column, with what is wrong; nothing else; nothing is written."""
    rows = pedigree()
    expected = with_faults(rows)
    path = tmp_path / "pedigree.csv"
    path.write_text("\n".join([HEAD, *(",".join(row.values()) for row in rows)]) + "\n")
    book = begin_book(str(tmp_path / "book.colony"))
    began = time.monotonic()
    with book.act("book import") as session:
        done = import_path(session, path=path, today=date(2026, 3, 2))
    assert time.monotonic() - began < 20, "a few seconds, and some for a busy machine"
    found = {(fault.line, fault.column): fault.problem for fault in done.errors}
    assert len(expected) == len(done.errors) == 20
    assert found.keys() == {(line, column) for line, column, _ in expected}
    for line, column, says in expected:
        assert says in found[line, column]
    with book.reading() as session:
        assert session.exec(select(Animal)).first() is None


def test_a_sound_pedigree_has_no_fault(tmp_path: Path) -> None:
    """The pedigree of the test above is sound by itself, so that its faults are its own."""
    text = "\n".join([HEAD, *(",".join(row.values()) for row in pedigree())])
    (tmp_path / "sound.csv").write_text(text)
    book = begin_book(str(tmp_path / "book.colony"))
    with book.act("book import") as session:
        done = import_path(session, path=tmp_path / "sound.csv", today=date(2026, 3, 2))
    assert done.errors == ()
    assert (done.added, done.ancestors) == (ROWS, 0)
