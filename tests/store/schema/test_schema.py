"""The schema: its scripts against the records, and the rules that the database itself holds."""

import shutil
import sqlite3
import warnings
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from farm import Farm

from colony.records import every_table
from colony.store.book import Book, open_book
from colony.store.engine import make_engine, turn
from colony.store.schema import upgrade
from colony.store.schema.book_version import SCHEMA
from colony.store.schema.upgrade import known_versions

ROWS_THAT_CANNOT_BE = {
    "a sex that is none": "UPDATE animal SET sex = 'X'",
    "an origin that is none": "UPDATE animal SET origin = 'found'",
    "a status without its day": "UPDATE animal SET status = 'sold'",
    "a day without its status": "UPDATE animal SET ended_on = '2026-01-01'",
    "an end before the birth": (
        "UPDATE animal SET status = 'died', born = '2020-01-01', ended_on = '2019-01-01'"
    ),
    "a day that never was": "UPDATE animal SET born = '2026-02-30'",
    "a day written otherwise": "UPDATE animal SET born = '9.3.2026'",
    "a number for a day": "UPDATE animal SET born = 20260309",
    "a yes that is no yes": "UPDATE animal SET held_back = 2",
    "an animal as its own dam": "UPDATE animal SET dam_id = id WHERE tag = 'Alma'",
    "an animal as its own sire": "UPDATE animal SET sire_id = id WHERE tag = 'Bruno'",
    "a second dam beside the litter's": (
        "UPDATE animal SET dam_id = 1 WHERE litter_id IS NOT NULL"
    ),
    "an empty tag": "UPDATE animal SET tag = '' WHERE tag = 'Alma'",
    "a tag twice, in another case": "UPDATE animal SET tag = 'ALMA' WHERE tag = 'Bruno'",
    "a transponder of 14 digits": "UPDATE animal SET transponder = '99912345678901'",
    "a dam that is not there": "UPDATE animal SET dam_id = 999 WHERE tag = 'Bruno'",
    "a litter of nobody": "UPDATE litter SET live = 0, dead = 0",
    "a litter code twice": "INSERT INTO litter SELECT id + 1, code, dam_id, pairing_id, tank_id,"
    " born, live, dead, pups_may_differ, note FROM litter",
    "a share above one": "UPDATE possible_sire SET share = 1.5",
    "a share of nothing": "UPDATE possible_sire SET share = 0",
    "a sire of a litter and of an animal": "UPDATE possible_sire SET animal_id = 1",
    "a pairing that ends before it began": "UPDATE pairing SET ended = '1990-01-01'",
    "a mating sign that is none": "UPDATE mating_sign SET kind = 'a look'",
    "a finding that is none": "UPDATE pregnancy_finding SET finding = 'perhaps'",
    "a width of nothing": "UPDATE measurement SET width_mm = 0",
    "a measurement of nothing": "UPDATE measurement SET width_mm = NULL, mass_g = NULL",
    "a width in words": "UPDATE measurement SET width_mm = 'wide'",
    "a food twice on a day": (
        "INSERT INTO feeding (animal_id, fed_on, food, took)"
        " SELECT animal_id, fed_on, food, 0 FROM feeding"
    ),
    "a hold that ends before it began": "UPDATE hold SET ended = '1990-01-01'",
    "a hold without a reason": "UPDATE hold SET why = NULL",
    "a role that is none": "UPDATE tank SET role = 'kitchen'",
    "a tank of two shapes": "UPDATE tank SET diameter_mm = 1000",
    "a tank with half a shape": "UPDATE tank SET length_mm = NULL",
    "a tank that is not there": "UPDATE placement SET tank_id = 999",
    "a placement that leaves as it enters": "UPDATE placement SET left_on = entered_on",
    "a tank with somebody in it, deleted": "DELETE FROM tank WHERE code = 'B1'",
    "a number of a species below nothing": "UPDATE life_history SET number = -1",
    "a number of a species twice": (
        "INSERT INTO life_history (species_id, trait, number, source)"
        " SELECT species_id, trait, number, source FROM life_history"
    ),
    "a word in a number": "UPDATE litter SET live = 'many'",
    "an act that is changed": "UPDATE journal SET who = 'nobody'",
    "an act that is forgotten": "DELETE FROM journal",
}


@pytest.fixture(scope="module")
def house_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A row in every table that has a rule."""
    farm = Farm(tmp_path_factory.mktemp("house") / "house.colony")
    farm.tank("B1")
    farm.tank("B2")
    farm.female("Alma", tank="B1")
    farm.male("Bruno")
    farm.pair("Alma", "Bruno", on="150d ago")
    farm.sign("Alma", on="149d ago")
    farm.found("Alma", "pregnant", on="30d ago")
    farm.litter("Alma", "2U")
    farm.measure("26-01-1", "14cm")
    farm.feed("26-01-1", "worms")
    farm.hold("26-01-1")
    farm.book.close()
    return farm.path


@pytest.fixture
def house(house_file: Path, tmp_path: Path) -> Iterator[Farm]:
    """That house, for one test to spoil."""
    farm = Farm(Path(shutil.copy(house_file, tmp_path)))
    yield farm
    farm.book.close()


@pytest.mark.parametrize("row", ROWS_THAT_CANNOT_BE)
def test_the_database_itself_refuses(house: Farm, row: str) -> None:
    """Bad data is refused also when it does not come through the program."""
    before = house.written()
    with pytest.raises(sqlite3.IntegrityError):
        house.write(ROWS_THAT_CANNOT_BE[row])
    assert house.written() == before


def test_nobody_is_in_two_tanks_on_one_day(house: Farm) -> None:
    """Neither by a new row nor by a changed one, nor between two old ones."""
    enter = "INSERT INTO placement (animal_id, tank_id, entered_on, left_on) VALUES (1, 2, ?, ?)"
    for days in (("2020-01-01", None), ("2026-03-09", "2026-03-10"), ("2026-01-01", "2027-01-01")):
        with pytest.raises(sqlite3.IntegrityError, match="one tank a day"):
            house.write(enter, *days)
    house.write(enter, "2020-01-01", "2020-02-01")
    house.write(enter, "2020-02-01", "2020-03-01")
    with pytest.raises(sqlite3.IntegrityError, match="one tank a day"):
        house.write("UPDATE placement SET left_on = '2020-02-02' WHERE left_on = '2020-02-01'")


def test_every_table_is_strict_and_every_connection_keeps_its_keys(house: Farm) -> None:
    """STRICT tables, foreign keys on, write-ahead log: what the engine asks for is in force."""
    tables = house.rows("PRAGMA table_list")
    loose = {name for _, name, kind, _, _, strict in tables if kind == "table" and not strict}
    assert loose <= {"alembic_version", "sqlite_schema", "sqlite_temp_schema"}
    with house.book.reading() as session:
        connection = session.connection()
        assert connection.exec_driver_sql("PRAGMA foreign_keys").scalar() == 1
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
    assert house.rows("PRAGMA foreign_key_check") == []


def test_the_scripts_make_what_the_records_say(book: Book) -> None:
    """A record without its script, or a script that drifted from it, is found here."""
    with book.engine.connect() as connection, warnings.catch_warnings():
        # SQLite cannot tell of the index on lower(tag); that it is in force is tested above.
        warnings.filterwarnings("ignore", ".*expression-based index")
        drift = compare_metadata(MigrationContext.configure(connection), every_table())
    assert [one for one in drift if "ux_animal_tag" not in repr(one)] == []


def test_the_scripts_are_one_line_that_ends_where_the_program_says() -> None:
    """No branch, and `SCHEMA` is the head."""
    config = Config()
    config.set_main_option("script_location", str(Path(upgrade.__file__).parent))
    config.set_main_option("path_separator", "os")
    assert ScriptDirectory.from_config(config).get_heads() == [SCHEMA]
    assert {f"{n:04d}" for n in range(1, int(SCHEMA) + 1)} == known_versions()


@pytest.fixture
def old_book(tmp_path: Path) -> Path:
    """A book of the first schema, with an animal in it."""
    path = tmp_path / "old.colony"
    engine = make_engine(str(path))
    with turn(engine) as connection:
        upgrade.upgrade(connection, "0001")
    engine.dispose()
    with closing(sqlite3.connect(path)) as file:
        file.execute(
            "INSERT INTO species (name, scientific_name) VALUES ('family', 'Potamotrygonidae')"
        )
        file.execute(
            "INSERT INTO animal (tag, sex, born_precision, origin, held_back, status)"
            " VALUES ('Alma', 'F', 'day', 'wild', 0, 'present')"
        )
        file.commit()
    return path


def test_a_book_of_an_older_schema_is_copied_and_then_brought_up_to_date(old_book: Path) -> None:
    """The copy still has the old schema; the book has the new one and all its animals."""
    open_book(str(old_book)).close()
    versions = {}
    (copy,) = (old_book.parent / "backups").iterdir()
    for path in (old_book, copy):
        with closing(sqlite3.connect(path)) as file:
            (versions[path],) = file.execute("SELECT version_num FROM alembic_version").fetchone()
            assert file.execute("SELECT tag FROM animal").fetchall() == [("Alma",)]
    assert versions == {old_book: SCHEMA, copy: "0001"}
    assert "schema-0001" in copy.name


def test_a_schema_that_cannot_be_applied_leaves_the_book_as_it_was(
    old_book: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One transaction: half a schema is none."""

    def fail_at_the_end(*_: object) -> None:
        raise OSError("the power failed")

    monkeypatch.setattr("colony.store.schema.book_version._write_first_act", fail_at_the_end)
    with pytest.raises(OSError, match="power"):
        open_book(str(old_book))
    with closing(sqlite3.connect(old_book)) as file:
        assert file.execute("SELECT version_num FROM alembic_version").fetchall() == [("0001",)]


def test_keys_between_parents_and_litters_wait_for_the_end_of_the_act(farm_file: Farm) -> None:
    """A pup may stand before its dam within one act; at its end the key holds."""
    with closing(sqlite3.connect(farm_file.path)) as file:
        file.execute("PRAGMA foreign_keys = ON")
        add = (
            "INSERT INTO animal (id, tag, sex, born_precision, origin, held_back, status, dam_id)"
            " VALUES (?, ?, 'F', 'day', 'unknown', 0, 'present', ?)"
        )
        file.execute(add, (1, "Pup", 2))
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            file.commit()
        file.execute(add, (2, "Dam", None))
        file.commit()
    assert farm_file.rows("SELECT tag FROM animal ORDER BY id") == [("Pup",), ("Dam",)]
