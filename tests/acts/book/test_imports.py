"""Import a breeder's own spreadsheet."""

import json
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

import pytest
from sqlmodel import col, select

from colony.acts.book.importing.imported import Imported
from colony.acts.book.importing.imports import import_path
from colony.acts.tanks.tanks import add_tank, set_system
from colony.records import Animal, JournalEntry, Measurement, Placement, PossibleSire, Tank
from colony.refusals.base import WrongUse
from colony.refusals.exchange import FieldTwice, NotAColonyFolder, OnlyForSheets, UnknownChoice
from colony.store.book import Book, begin_book

TODAY = date(2026, 3, 2)
Facts = dict[str, object]


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A new book with the tanks N1 and N2."""
    new = begin_book(str(tmp_path / "book.colony"))
    with new.act("test") as session:
        set_system(session, name="north")
        for code in ("N1", "N2"):
            size = {"length_mm": 3000, "width_mm": 1500}
            add_tank(session, code=code, system="north", role="breeding", **size)
    return new


class Importer:
    """Imports sheets of the test into the book of the test."""

    def __init__(self, book: Book, folder: Path) -> None:
        self.book, self.folder = book, folder

    def __call__(self, text: str, **options: object) -> Imported:
        """Import this text as a file."""
        path = self.folder / "sheet.csv"
        path.write_text(text, "utf-8")
        with self.book.act("book import") as session:
            return import_path(session, path=path, **({"today": TODAY} | options))  # type: ignore[arg-type]

    def animals(self) -> dict[str, Animal]:
        """Everybody in the book by tag."""
        with self.book.reading() as session:
            return {animal.tag: animal for animal in session.exec(select(Animal))}

    def count(self, record: type[Measurement | Placement | PossibleSire | JournalEntry]) -> int:
        """How many records of a kind the book has."""
        with self.book.reading() as session:
            return len(session.exec(select(record)).all())

    def facts(self, tag: str, *names: str) -> tuple[object, ...]:
        """Some facts of one animal."""
        return tuple(getattr(self.animals()[tag], name) for name in names)


@pytest.fixture
def take(book: Book, tmp_path: Path) -> Importer:
    """Import a text into the book."""
    return Importer(book, tmp_path)


def problems(done: Imported) -> Sequence[tuple[int, str]]:
    """Line and column of each fault."""
    return [(fault.line, fault.column) for fault in done.errors]


def test_a_pedigree_alone_is_enough(take: Importer) -> None:
    """Tag, sire and dam make animals; parents may stand later, and their role tells their sex."""
    done = take("tag,sire,dam\nPup,Bruno,Alma\nAlma,,\nBruno,,\n")
    assert (done.added, done.updated, done.skipped, done.errors) == (3, 0, 0, ())
    animals = take.animals()
    assert animals["Pup"].dam_id == animals["Alma"].id
    assert animals["Pup"].sire_id == animals["Bruno"].id
    assert (animals["Alma"].sex, animals["Bruno"].sex, animals["Pup"].sex) == ("F", "M", "U")


def test_every_field_is_read_in_any_column_order(take: Importer) -> None:
    """One rich row becomes the animal, its measurement and its place."""
    done = take(
        "Remarks;Weight;Chip;DW (in);Measured;Tank;Line;F/M;DOB;Species;Origin;From;Arrived;Ring;Keep\n"
        "shy;1.2kg;999 0000 1234 5678;5;2026-02-01;n2;Ember;♀;05/2024;P. motoro;CB;a friend;"
        "2024-09-30;A1;yes\n",
        mappings=["ring=tag"],
    )
    assert (done.added, done.errors, done.ignored) == (1, (), ())
    names = ("note", "transponder", "line", "sex", "born", "born_precision", "origin", "held_back")
    assert take.facts("A1", *names) == (
        *("shy", "999000012345678", "Ember", "F", date(2024, 5, 1), "month"),
        *("bred elsewhere", True),
    )
    assert take.facts("A1", "arrived", "arrived_from") == (date(2024, 9, 30), "a friend")
    with take.book.reading() as session:
        measured = session.exec(select(Measurement)).one()
        assert (measured.width_mm, measured.mass_g) == (127, 1200)
        assert measured.measured_on == date(2026, 2, 1)
        tank = session.exec(select(Tank).join(Placement)).one()
        assert tank.code == "N2"


def test_importing_the_same_file_twice_changes_nothing(take: Importer) -> None:
    """The second time all is skipped, also on a later day, and the journal has no new row."""
    text = (
        "tag,sex,born,dam,sire,status,width,tank\n"
        "A1,F,2020,,,,44,N1\nA2,,2024-05-01,A1,Bo/Cy,sold,14.5,\nA3,M,2023,A1,Bo,,,N2\n"
    )
    first = take(text)
    before = (take.count(JournalEntry), take.count(Measurement), take.animals())
    second = take(text, today=date(2026, 4, 4))
    assert (first.added, first.ancestors) == (5, 2)
    assert (second.added, second.updated, second.skipped) == (0, 0, 3)
    assert (take.count(JournalEntry), take.count(Measurement), take.animals()) == before


def test_an_import_is_one_act_with_one_journal_row(take: Importer) -> None:
    """All rows of a file stand in one entry, which can be read back as JSON."""
    before = take.count(JournalEntry)
    take("tag,dam\nA1,A2\nA2,\n")
    assert take.count(JournalEntry) == before + 1
    with take.book.reading() as session:
        entry = session.exec(select(JournalEntry).order_by(col(JournalEntry.id).desc())).first()
    assert entry is not None
    assert entry.act == "book import"
    written = [change["after"] for change in json.loads(entry.changes) if not change["before"]]
    assert {animal["tag"] for animal in written} == {"A1", "A2"}


def test_a_changed_cell_updates_and_an_empty_one_erases_nothing(take: Importer) -> None:
    """What a sheet says replaces what the book says; what it does not say stays."""
    take("tag,name,line,sex,width,measured on\nA1,Moss,Ember,,10,2026-01-01\nA2,,,,,\n")
    done = take("tag,name,line,sex,width,measured on\na1,,Quarry,F,11,2026-01-01\nA2,,,,,\n")
    assert (done.added, done.updated, done.skipped) == (0, 1, 1)
    assert take.facts("A1", "name", "line", "sex") == ("Moss", "Quarry", "F")
    with take.book.reading() as session:
        assert [row.width_mm for row in session.exec(select(Measurement))] == [110]


def test_a_parent_that_never_appears_becomes_a_bare_ancestor(take: Importer) -> None:
    """It gets its sex by its role, and ended no earlier than its last known pup was born."""
    done = take("tag,dam,sire,born\nA1,Old,Older,2019-01-02\nA2,old,Older,2021-05-06\n")
    assert (done.added, done.ancestors) == (4, 2)
    assert take.facts("Old", "sex", "status", "ended_on") == ("F", "gone", date(2021, 5, 6))
    assert take.facts("Older", "sex", "status") == ("M", "gone")
    later = take("tag,born,sex\nOld,2012,F\n")
    assert (later.added, later.updated) == (0, 1)
    assert take.facts("Old", "status", "ended_on", "note") == ("present", None, None)


def test_several_sires_in_one_cell_stay_possible(take: Importer) -> None:
    """Shares are kept with the animal; one sire alone is beyond doubt."""
    take("tag,sex,sire\nBruno,M,\nCaro,M,\nP1,,Bruno=0.7 Caro=0.3\nP2,,Bruno/Caro\nP3,,Caro\n")
    with take.book.reading() as session:
        tags = {animal.id: animal.tag for animal in session.exec(select(Animal))}
        rows = session.exec(select(PossibleSire).order_by(col(PossibleSire.id))).all()
    found = [(tags[row.animal_id], tags[row.sire_id], row.share) for row in rows]
    assert found == [
        ("P1", "Bruno", 0.7),
        ("P1", "Caro", 0.3),
        ("P2", "Bruno", 0.5),
        ("P2", "Caro", 0.5),
    ]
    assert take.animals()["P3"].sire_id == take.animals()["Caro"].id
    assert take("tag,sire\nP1,Caro\n").updated == 1
    assert take.count(PossibleSire) == 2


def test_rows_that_repeat_are_skipped_and_rows_that_conflict_are_faults(take: Importer) -> None:
    """The same line twice does no harm; two truths about one animal do."""
    done = take("tag,sex\nA1,F\nA1,F\nA1,female\n")
    assert (done.added, done.skipped, done.errors) == (1, 2, ())
    done = take("tag,born\nA2,2020\nA2,2021\n")
    assert problems(done) == [(3, "tag")]
    assert "born" in done.errors[0].problem


def test_nothing_is_written_when_a_fault_stands(take: Importer) -> None:
    """One bad cell keeps the whole file out, and all faults are told at once."""
    before = take.count(JournalEntry)
    done = take("tag,sex,born\nA1,F,2020\nA2,maybe,soon\n,F,\n")
    assert problems(done) == [(3, "born"), (3, "sex"), (4, "tag")]
    assert done.refused
    assert (done.added, take.animals(), take.count(JournalEntry)) == (0, {}, before)


def test_bad_rows_are_left_out_when_asked(take: Importer) -> None:
    """The good rows are written, also where a bad one was their parent or closed a circle."""
    done = take(
        "tag,sex,dam\nA1,maybe,\nA2,F,A1\nA3,F,A4\nA4,F,A3\nA5,F,A4\n",
        skip_bad=True,
    )
    assert len(done.errors) == 2
    assert not done.refused
    assert take.facts("A1", "sex", "status") == ("F", "gone")
    assert set(take.animals()) == {"A1", "A2", "A3", "A4", "A5"}
    assert take.animals()["A5"].dam_id == take.animals()["A4"].id


def test_a_dry_run_says_what_would_be_and_writes_nothing(take: Importer) -> None:
    """The counts are those of the import that follows."""
    text = "tag,dam,width,tank\nA1,A2,12,N1\n"
    before = take.count(JournalEntry)
    dry = take(text, dry_run=True)
    assert (take.animals(), take.count(JournalEntry)) == ({}, before)
    assert dry == take(text)


def test_an_end_without_its_day_gets_that_of_the_import_and_says_so(take: Importer) -> None:
    """A sold or dead animal needs a day; where none is known that is written beside it."""
    take("tag,status,died,born\nA1,sold,,\nA2,,2025-02-03,\nA3,,2025,2025-03-01\n")
    assert take.facts("A1", "status", "ended_on") == ("sold", TODAY)
    assert "not known" in str(take.facts("A1", "ended_why"))
    assert take.facts("A2", "status", "ended_on", "ended_why") == ("died", date(2025, 2, 3), None)
    assert take.facts("A3", "status", "ended_on") == ("died", date(2025, 3, 1))


def test_an_end_in_a_sheet_frees_the_tank(take: Importer) -> None:
    """An animal that the sheet says was sold is in no tank after that day."""
    take("tag,tank\nA1,N1\n", today=date(2026, 2, 1))
    take("tag,sold\nA1,2026-02-20\n")
    with take.book.reading() as session:
        assert session.exec(select(Placement)).one().left_on == date(2026, 2, 21)


def test_units_come_from_the_cell_the_heading_the_option_or_the_book(take: Importer) -> None:
    """In that order: the nearer one holds."""
    take("tag,width\nA1,12\nA2,5in\n")
    take("tag,width_in\nA3,5\nA4,12cm\n")
    take("tag,width\nA5,5\n", length_unit="in")
    with take.book.reading() as session:
        widths = [row.width_mm for row in session.exec(select(Measurement))]
    assert widths == [120, 127, 127, 120, 127]


def test_a_tank_is_checked_once_the_book_has_tanks(take: Importer, tmp_path: Path) -> None:
    """A book without tanks leaves the column out and says so; otherwise a wrong code is a fault."""
    done = take("tag,tank\nA1,N-1\n")
    assert problems(done) == [(2, "tank")]
    assert "did you mean N1" in done.errors[0].problem
    new = Importer(begin_book(str(tmp_path / "new.colony")), tmp_path)
    done = new("tag,tank\nA1,N9\n")
    assert (done.added, done.ignored) == (1, ("tank",))


@pytest.mark.parametrize(
    ("row", "column", "says"),
    [
        ("A1,M,,,,", "sex", "female"),
        ("A1,F,,,present,", "status", "sold"),
        ("P1,,Bo,,,", "dam", "male"),
        ("P1,,,A1,,", "sire", "female"),
        ("P1,,A1,,,2009", "dam", "born"),
        ("Bo,,,,,2021", "born", "Kid"),
        ("P1,,,,,2027", "born", "not come"),
        ("P1,,,,present,2020,2021", "status", "is not present"),
        ("P1,,,,,2020,2019", "died", "before it was born"),
    ],
)
def test_a_row_that_contradicts_the_book_is_a_fault(
    take: Importer, row: str, column: str, says: str
) -> None:
    """Sex, end, parents and ages are held against what the book knows, and the book stays."""
    head = "tag,sex,dam,sire,status,born,died\n"
    take(f"{head}A1,F,,,sold,2010,\nBo,M,,,,2010,\nKid,,,Bo,,2015,\n")
    before = take.animals()
    done = take(head + row + "\n")
    assert problems(done) == [(2, column)]
    assert says in done.errors[0].problem
    assert take.animals() == before


def test_a_row_that_would_break_a_rule_beside_the_book_is_a_fault(take: Importer) -> None:
    """A birth after the end that the book has is told by line and column; nothing is written."""
    take("tag,status,died\nA1,died,2019-05-01\n")
    before = take.animals()
    done = take("tag,born\nA1,2020-02-01\n")
    assert problems(done) == [(2, "ended_on")]
    assert "must not come before born" in done.errors[0].problem
    assert take.animals() == before


def test_a_circle_through_the_book_is_named(take: Importer) -> None:
    """Every animal of the circle stands in the sentence."""
    take("tag,dam\nA1,A2\nA2,A3\n")
    done = take("tag,dam\nA3,A1\n")
    assert problems(done) == [(2, "dam")]
    assert all(tag in done.errors[0].problem for tag in ("A1", "A2", "A3"))


@pytest.mark.parametrize(
    ("text", "options", "refusal"),
    [
        ("tag,dam,mum\nA,,\n", {}, FieldTwice),
        ("tag\nA\n", {"date_order": "ymd"}, UnknownChoice),
        ("tag\nA\n", {"length_unit": "ell"}, UnknownChoice),
    ],
)
def test_a_file_or_option_that_makes_no_sense_is_refused(
    take: Importer, text: str, options: Facts, refusal: type[WrongUse]
) -> None:
    """Wrong use is one sentence, and nothing is written."""
    with pytest.raises(refusal):
        take(text, **options)
    assert take.animals() == {}


def test_options_of_sheets_are_refused_for_a_folder(book: Book, tmp_path: Path) -> None:
    """A folder is taken whole; a folder of something else is no colony."""
    sheet_options: list[Facts] = [
        {"mappings": ["a=tag"]},
        {"date_order": "dmy"},
        {"length_unit": "in"},
        {"skip_bad": True},
    ]
    with book.reading() as session:
        for options in sheet_options:
            with pytest.raises(OnlyForSheets):
                import_path(session, path=tmp_path, today=TODAY, **options)  # type: ignore[arg-type]
        with pytest.raises(NotAColonyFolder):
            import_path(session, path=tmp_path, today=TODAY)


def test_progress_is_told_to_its_end(take: Importer) -> None:
    """Reading and writing each end at all of it."""
    seen: list[tuple[str, int, int]] = []
    watch: Callable[[str, int, int], None] = lambda *told: seen.append(told)  # noqa: E731 - a recorder
    take("tag\n" + "".join(f"A{n}\n" for n in range(250)), progress=watch)
    assert [one for one in seen if one[1] == one[2]] == [
        ("reading", 250, 250),
        ("writing", 250, 250),
    ]
