"""Write the book out, and take it back."""

import csv
from collections.abc import Mapping, Sequence
from datetime import date, timedelta
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from sqlmodel import Session, SQLModel, select

from colony.acts.animals.species import add_species, set_trait
from colony.acts.book.export import export_book
from colony.acts.book.importing.imported import Imported
from colony.acts.book.importing.imports import import_path
from colony.acts.book.sample import make_sample_book
from colony.acts.book.settings import set_setting
from colony.acts.book.tables import read_heading, read_tables
from colony.acts.orders.buyers import add_buyer, end_buyer
from colony.acts.orders.orders import add_order
from colony.acts.orders.payments import pay
from colony.acts.orders.prices import set_price, spend
from colony.acts.orders.reserving import release, reserve
from colony.exchange.folder.nouns import BY_NAME
from colony.records import (
    RECORDED,
    Animal,
    Buyer,
    CareDone,
    CareRhythm,
    Food,
    FoodBatch,
    JournalEntry,
    LifeHistory,
    Litter,
    LookOver,
    MoveToDo,
    Order,
    Pairing,
    PairingSire,
    Person,
    PossibleSire,
    Prescription,
    ReserveReading,
    Setting,
    Shipment,
    Species,
    System,
    Tank,
    TankFeeding,
    VetPatient,
    VetVisit,
    WaterChange,
    WaterLimit,
    WaterRegime,
    WaterTest,
    record_of,
)
from colony.refusals.animals import NoSuchTrait
from colony.refusals.exchange import CannotWrite, WouldOverwrite
from colony.store.book import Book, begin_book, open_book

TODAY = date(2026, 9, 17)
Rows = list[tuple[object, ...]]

RECORDS = {noun: record_of(noun) for noun in RECORDED}

BESIDE: tuple[type[SQLModel], ...] = (PairingSire, PossibleSire, VetPatient, Person)
"""Tables that stand in a column of another's file."""

PERSON = {"person", "person_digest"}
"""How a buyer is tied to the person beside the journal: each book salts and counts anew."""

HEADING: tuple[type[SQLModel], ...] = (Setting, Species, LifeHistory)
"""Tables that stand in colony.toml."""

NOT_TAKEN = {
    "journal": "what was done in this book, append-only; another book has its own",
    "journal_place": "what the acts of the journal touched, made from it",
    "book": "which book this is; another book is another one",
}
"""Tables that a folder leaves out, and why."""


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """The sample colony, with a few things that are awkward to write in a cell."""
    location = str(tmp_path_factory.mktemp("sample") / "book.colony")
    make_sample_book(location=location, today=TODAY)
    book = open_book(location)
    with book.act("test") as session:
        set_setting(session, key="length_unit", value="in")
        add_species(session, name="own one", scientific_name="Potamotrygon nova")
        set_trait(session, name="own one", trait="rest_days", number=33.5, source='our "log"')
        _awkward(session)
        _every_care(session)
    return book


def _awkward(session: Session) -> None:
    animals = {animal.tag: animal for animal in session.exec(select(Animal))}
    animals["Alma"].note = '=HYPERLINK("x"), two\nlines; and\ttabs'.replace("\t", " ")
    animals["Bruno"].name, animals["Caro"].name = "'=1+1", "-5 @home"
    animals["Dante"].tag = "Big D/2 [red]"
    third = [animals["Bruno"].id, animals["Faro"].id, None]
    animals["Rhea"].dam_id = animals["Cleo"].id
    for sire_id in third:
        session.add(PossibleSire(animal_id=animals["Rhea"].id, sire_id=sire_id, share=1 / 3))
    pairing = session.exec(select(Pairing)).first()
    assert pairing is not None
    twin = Pairing(**pairing.model_dump(exclude={"id"}))
    session.add(twin)
    session.flush()
    assert twin.id is not None
    dante = animals["Dante"].id
    assert dante is not None
    session.add(PairingSire(pairing_id=twin.id, sire_id=dante))


def _every_care(session: Session) -> None:
    """One row of each table of care with every column filled, and one with as few as can be."""
    tank = session.exec(select(Tank)).all()[4]
    alma = session.exec(select(Animal).where(Animal.tag == "Alma")).one()
    motoro = session.exec(select(Species).where(Species.name == "motoro")).one()
    here: dict[str, Any] = {"tank_id": tank.id}
    home: dict[str, Any] = {"system_id": tank.system_id}
    her: dict[str, Any] = {"animal_id": alma.id}
    rhythm, done = partial(CareRhythm, started=TODAY), partial(CareDone, done_on=TODAY)
    session.add_all(
        [
            rhythm(task="feeding", times_a_day=3, **here),
            rhythm(task="water test", every_days=9, **home),
            rhythm(task="clean-up", role="hospital"),
            done(task="clean-up", note="=1+1", **here),
            done(task="clean-up", note="=1+1", **here),
            done(task="drum check", skipped_why="no power; the pump was off", **home),
        ]
    )
    foods = [Food(name="krill / large", protein_percent=12.3, note="x"), Food(name="krill")]
    session.add_all(foods)
    visits = [
        VetVisit(visited_on=TODAY, vet="the vet", why="check", found="well; see 2"),
        VetVisit(visited_on=TODAY, vet="The vet", why="again"),
    ]
    session.add_all(visits)
    session.flush()
    batches = [
        FoodBatch(food_id=foods[0].id or 0, code="A / 1", received=TODAY, finished_on=TODAY),
        FoodBatch(food_id=foods[1].id or 0, code="A / 1", received=TODAY, expires=TODAY),
    ]
    session.add_all(batches)
    session.flush()
    fed = partial(TankFeeding, fed_on=TODAY, taken="some", **here)
    session.add_all(
        [
            *(
                fed(food_id=batch.food_id, batch_id=batch.id, offered_g=7, note="n")
                for batch in batches
            ),
            fed(food_id=foods[0].id or 0),
            WaterChange(changed_on=TODAY, litres=70, note="n", **home),
            ReserveReading(read_on=TODAY - timedelta(days=400), litres=0),
            WaterTest(tested_on=TODAY, parameter="ph", value=6.85, note="n", **home),
            WaterLimit(parameter="ph", species_id=motoro.id, low=5.5, high=7, source="own"),
            WaterLimit(parameter="ammonia_mg_l", high=1e-7, source="own"),
            LookOver(seen_on=TODAY, sign="other", note="n", **here),
            LookOver(seen_on=TODAY, sign="well", **her),
            *(VetPatient(visit_id=visit.id or 0, **her) for visit in visits),
            Prescription(visit_id=visits[1].id or 0, as_written="see sheet", starts=TODAY),
            MoveToDo(accepted_on=TODAY, due_by=TODAY, why="w", done_on=TODAY, **here, **her),
            MoveToDo(accepted_on=TODAY, due_by=TODAY, why="w", dropped_on=TODAY, **here, **her),
        ]
    )
    _every_sale(session)
    both_ways = session.exec(
        select(WaterRegime).where(WaterRegime.system_id == tank.system_id)
    ).one()
    both_ways.percent, both_ways.every_days = 12.5, 7


def _every_sale(session: Session) -> None:
    """One row of each table of the sale with every column filled, and one with as few as can be."""
    today: dict[str, Any] = {"on": TODAY, "today": TODAY}
    facts = {"contact": "=1+1", "country": "Nowhere", "region": "R", "kind": "shop"}
    personal = {"address": "a\nb", "papers": "none", "papers_until": TODAY, "note": "n; m"}
    add_buyer(session, name="Mill, Pond & Co", facts=facts | personal)
    add_buyer(session, name="Plain")
    end_buyer(session, buyer="Plain", **today)
    wanted = ["1F1M motoro, 12cm, unrelated, 99.50 each", "2 leopoldi"]
    mill: dict[str, Any] = {"buyer": "Mill", "needed_by": TODAY + timedelta(days=30), "note": "n"}
    page = add_order(session, wants=wanted, deposit="10", **mill, **today)
    one: dict[str, Any] = {"order": str(page.order)}
    add_order(session, buyer="Mill", wants=["1F"], **today)
    keep: dict[str, Any] = {"anyway": True, "why": "a test"}
    reserve(session, **one, tags=["Alma", "Bruno"], until=TODAY, **keep, **today)
    release(session, **one, tags=["Bruno"], **today)
    pay(session, **one, amount="5", kind="discount", note="friend", **today)
    order_id = session.exec(select(Order.id).where(Order.code == one["order"])).one()
    session.add(
        Shipment(
            order_id=order_id or 0, leaves_on=TODAY, hours=20, arrived_on=TODAY, lost=1, claim="c"
        )
    )
    kind = {"species": "motoro", "line": "own", "sex": "F", "from_width_mm": 120}
    set_price(session, amount="120", facts=kind | {"valid_until": TODAY}, **today)
    set_price(session, amount="99", facts={"animal": "Alma"}, **today)
    spend(session, kind="food", amount="10.01", species="motoro", note="prawn", **today)
    spend(session, kind="power", amount="1", **today)


def content(book: Book) -> dict[str, Rows]:
    """Every row of every table, ids replaced by the names of what they point at, sorted."""
    with book.reading() as session:
        names = _names(session)
        records: list[type[SQLModel]] = [*RECORDS.values(), *BESIDE, *HEADING]
        return {
            record.__name__: sorted(
                (_row(one, names) for one in session.exec(select(record))), key=repr
            )
            for record in records
        }


def _names(session: Session) -> Mapping[str, Mapping[int | None, object]]:
    animals = {one.id: one.tag for one in session.exec(select(Animal))}
    pairings = session.exec(select(Pairing)).all()
    foods = {one.id: one.name for one in session.exec(select(Food))}
    return {
        "animal": animals,
        "litter": {one.id: one.code for one in session.exec(select(Litter))},
        "tank": {one.id: one.code for one in session.exec(select(Tank))},
        "system": {one.id: one.name for one in session.exec(select(System))},
        "species": {one.id: one.name for one in session.exec(select(Species))},
        "pairing": {pairing.id: (animals[pairing.dam_id], pairing.started) for pairing in pairings},
        "food": foods,
        "batch": {
            one.id: (foods[one.food_id], one.code) for one in session.exec(select(FoodBatch))
        },
        "buyer": {one.id: one.code for one in session.exec(select(Buyer))},
        "order": {one.id: one.code for one in session.exec(select(Order))},
        "visit": {one.id: (one.vet, one.visited_on) for one in session.exec(select(VetVisit))},
    }


def _row(record: Any, names: Mapping[str, Mapping[int | None, object]]) -> tuple[object, ...]:  # noqa: ANN401 - any record
    kinds = {"dam_id": "animal", "sire_id": "animal", "other_id": "animal"}
    cells = []
    own = {"id", "salt", "person_id", "person_digest"}
    for name, value in sorted(record.model_dump(exclude=own).items()):
        kind = kinds.get(name, name.removesuffix("_id"))
        if name.endswith("_id") and value is not None:
            value = names[kind][value]  # noqa: PLW2901 - the name of what it points at
        cells.append(round(value, 8) if isinstance(value, float) else value)
    return tuple(cells)


def take(book: Book, path: Path, **options: Any) -> Imported:  # noqa: ANN401 - options of the import
    """Import a path into a book."""
    with book.act("book import") as session:
        return import_path(session, path=path, today=TODAY, **options)


def export(book: Book, path: Path, *, overwrite: bool = False) -> None:
    """Export a book to a path."""
    with book.reading() as session:
        export_book(session, path=path, overwrite=overwrite, today=TODAY)


def test_a_folder_makes_the_same_book_again(sample: Book, tmp_path: Path) -> None:
    """Every row of every table comes back, up to ids, and exports to the same files."""
    export(sample, tmp_path / "out")
    new = begin_book(str(tmp_path / "new.colony"))
    done = take(new, tmp_path / "out")
    assert not done.errors
    assert content(new) == content(sample)
    export(new, tmp_path / "again")
    for file in sorted((tmp_path / "out").iterdir()):
        assert (tmp_path / "again" / file.name).read_bytes() == file.read_bytes()


def test_no_table_is_forgotten() -> None:
    """Each table of the book is a file, a column, a part of the heading, or left out for a reason."""
    taken = {record.__tablename__ for record in (*RECORDS.values(), *BESIDE, *HEADING)}
    assert taken | set(NOT_TAKEN) == set(SQLModel.metadata.tables)
    assert set(RECORDS) == set(BY_NAME)


def test_no_column_is_forgotten() -> None:
    """Each column of a table is a column of its file, by its own name or what it refers to."""
    for name, record in RECORDS.items():
        columns = {column.name for column in BY_NAME[name].columns}
        columns |= {f"{column.name}_precision" for column in BY_NAME[name].columns}
        fields = {field.removesuffix("_id") for field in record.model_fields} - {"id"}
        assert fields - PERSON <= columns, name


def test_a_folder_taken_twice_changes_nothing(sample: Book, tmp_path: Path) -> None:
    """Rows that the book has are skipped, and the journal gets no row."""
    export(sample, tmp_path / "out")
    with sample.reading() as session:
        before = len(session.exec(select(JournalEntry)).all())
    dry = take(sample, tmp_path / "out", dry_run=True)
    done = take(sample, tmp_path / "out")
    assert dry == done
    assert (done.added, done.updated, done.errors) == (0, 0, ())
    assert done.skipped == sum(len(rows) for rows in _tables(sample).values())
    with sample.reading() as session:
        assert len(session.exec(select(JournalEntry)).all()) == before


def _tables(book: Book) -> Mapping[str, Sequence[object]]:
    with book.reading() as session:
        return read_tables(session)


def test_a_sheet_of_animals_is_taken_back(sample: Book, tmp_path: Path) -> None:
    """Into its own book it changes nothing; into a new one it brings every animal and parent."""
    sheet = tmp_path / "animals.csv"
    export(sample, sheet)
    same = take(sample, sheet)
    assert (same.added, same.updated, same.errors) == (0, 0, ())
    new = begin_book(str(tmp_path / "new.colony"))
    with new.act("test") as session:
        add_species(session, name="own one", scientific_name="Potamotrygon nova")
    done = take(new, sheet)
    assert done.errors == ()
    assert done.added == same.skipped
    export(new, tmp_path / "again.csv")
    without_tank = [{**row, "tank": ""} for row in _dicts(sheet)]
    assert _dicts(tmp_path / "again.csv") == [
        {**row, "sire": "" if row["sire"] == "unknown" else row["sire"]} for row in without_tank
    ]


def _dicts(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return sorted(csv.DictReader(file), key=lambda row: row["tag"])


def test_no_exported_cell_would_run_as_a_formula(sample: Book, tmp_path: Path) -> None:
    """No cell of any file begins as OWASP's "CSV Injection" says a formula does."""
    export(sample, tmp_path / "out")
    export(sample, tmp_path / "sheet.csv")
    for path in [*(tmp_path / "out").glob("*.csv"), tmp_path / "sheet.csv"]:
        with path.open(encoding="utf-8", newline="") as file:
            cells = [cell for row in csv.reader(file) for cell in row]
        assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_an_export_replaces_nothing_unless_asked(sample: Book, tmp_path: Path) -> None:
    """What is there stays until it is said; a path that cannot be written is one sentence."""
    export(sample, tmp_path / "out")
    export(sample, tmp_path / "a.csv")
    for path in (tmp_path / "out", tmp_path / "a.csv"):
        with pytest.raises(WouldOverwrite):
            export(sample, path)
        export(sample, path, overwrite=True)
    with pytest.raises(CannotWrite):
        export(sample, tmp_path / "a.csv" / "out")


def edited(folder: Path, file: str, old: str, new: str) -> None:
    """Change one thing in a file of an exported folder."""
    text = (folder / file).read_text("utf-8")
    assert text.count(old) >= 1
    (folder / file).write_text(text.replace(old, new, 1), "utf-8")


@pytest.mark.parametrize(
    ("file", "change", "told"),
    [
        ("tanks.csv", (",north,", ",nroth,"), ("system", "did you mean north")),
        ("tanks.csv", (",3200,1600,", ",3200,,"), ("length_mm", "or a diameter")),
        ("tanks.csv", (",breeding,", ",bathing,"), ("role", "breeding")),
        ("animals.csv", (",leopoldi,F", ",leopard,F"), ("species", "leopoldi")),
        ("animals.csv", (",died,", ",present,"), ("status", "ended_on")),
        ("tanks.csv", (",3200,1600,", ",3200,0,"), ("width_mm", "of 1 or more")),
        (
            "placements.csv",
            ("2012-11-03,2012-12-07", "2012-12-07,2012-11-03"),
            ("left_on", "after"),
        ),
        ("litters.csv", ("L01,Quinta,Leo", "L01,Leo,Leo"), ("dam", "male")),
        ("litters.csv", ("L01,Quinta,Leo", "L01,Quinta,Lea"), ("sires", "did you mean leo")),
        ("litters.csv", ("Pablo=0.5", "Pablo=0.4"), ("sires", "sum to 0.9")),
        ("feedings.csv", (",yes\n", ",maybe\n"), ("took", "yes or no")),
        ("measurements.csv", ("Alma,2026", "Elma,2026"), ("animal", "did you mean")),
        ("mating_signs.csv", ("bite marks", "kisses"), ("kind", "copulation")),
        ("care_rhythms.csv", ("pad swap,,,,", "pad swap,nursery,,,"), ("task", "for a system")),
        (
            "care_rhythms.csv",
            ("feeding,nursery,", "feeding,nursery,north"),
            ("role", "one tank, one system"),
        ),
        (
            "care_rhythms.csv",
            ("feeding,nursery,,,2,1", "feeding,nursery,,,2,3"),
            ("every_days", "both"),
        ),
        ("care_done.csv", ("headcount,,N1", "headcount,,"), ("tank", "for a system")),
        ("care_done.csv", ("headcount,,N1", "headcount,north,"), ("task", "tank cell")),
        ("care_done.csv", ("headcount,,N1", "headcount,,N99"), ("tank", "no tank")),
        ("foods.csv", ("shrimp,20,", "shrimp,120,"), ("protein_percent", "from 0 to 100")),
        ("foods.csv", ("shrimp,20,", "shrimp,much,"), ("protein_percent", "no number")),
        ("tank_feedings.csv", ("mussel,M-2509", "smelt,M-2509"), ("batch", "no food batch")),
        ("water_regimes.csv", ("intake,22,2,", "intake,30,,"), ("every_days", "percent")),
        ("water_regimes.csv", ("intake,22,2,", "intake,80,3,"), ("percent", "at most")),
        ("water_regimes.csv", ("intake,22,2,", "intake,,,"), ("percent", "by a drip")),
        ("water_tests.csv", (",ph,6", ",ph,66"), ("value", "unit")),
        ("water_limits.csv", ("wallacei,5,", "wallacei,9,"), ("high", "above low")),
        ("water_limits.csv", ("wallacei,5,7.2", "wallacei,,"), ("low", "a high")),
        ("look_overs.csv", ("Gala,,wound", ",,wound"), ("animal", "of a tank")),
        ("prescriptions.csv", ("practice 20", "practise 20"), ("visit", "no vet visit")),
    ],
)
def test_a_fault_in_a_folder_is_told_by_file_line_and_column(
    sample: Book, tmp_path: Path, file: str, change: tuple[str, str], told: tuple[str, str]
) -> None:
    """Nothing is written, and the sentence says what would be right."""
    folder, (column, says) = tmp_path / "out", told
    export(sample, folder)
    edited(folder, file, *change)
    fresh = begin_book(str(tmp_path / "new.colony"))
    done = take(fresh, folder)
    assert done.refused
    # A pup has its parents from its litter, so a wrong one there is told at the pup.
    files = (file, "animals.csv") if file == "litters.csv" else (file,)
    assert any(
        fault.file in files and fault.column == column and says in fault.problem
        for fault in done.errors
    )
    with fresh.reading() as session:
        assert session.exec(select(Animal)).first() is None


def test_two_tanks_on_one_day_are_told_before_the_book_refuses(
    sample: Book, tmp_path: Path
) -> None:
    """The line of the second place is named, in the folder and beside the book."""
    export(sample, tmp_path / "out")
    with (tmp_path / "out" / "placements.csv").open("a", encoding="utf-8") as file:
        file.write("Alma,N2,2026-09-10,,\n")
    for book in (sample, begin_book(str(tmp_path / "new.colony"))):
        done = take(book, tmp_path / "out")
        assert [fault.column for fault in done.errors] == ["entered_on"]
        assert "two tanks" in done.errors[0].problem


def test_a_row_that_the_book_has_otherwise_is_a_fault(sample: Book, tmp_path: Path) -> None:
    """A folder adds and does not overwrite records; the columns that differ are named."""
    export(sample, tmp_path / "out")
    edited(tmp_path / "out", "tanks.csv", "S1,south,breeding,2400", "S1,south,breeding,2500")
    done = take(sample, tmp_path / "out")
    assert [(fault.column, fault.value) for fault in done.errors] == [("length_mm", "2500")]
    assert "length_mm" in done.errors[0].problem


def test_a_number_that_no_species_has_is_refused(sample: Book, tmp_path: Path) -> None:
    """An unknown trait in colony.toml is wrong use, and nothing is written."""
    export(sample, tmp_path / "out")
    edited(tmp_path / "out", "colony.toml", "rest_days", "rest_hours")
    new = begin_book(str(tmp_path / "new.colony"))
    with pytest.raises(NoSuchTrait):
        take(new, tmp_path / "out")
    with new.reading() as session:
        assert session.exec(select(Animal)).first() is None
        assert read_heading(session, TODAY).settings == {}
