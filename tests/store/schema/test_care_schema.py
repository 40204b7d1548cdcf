"""A book of the first schema becomes one of the second with everything that was in it."""

import contextlib
import sqlite3
from datetime import date
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from sqlalchemy.exc import IntegrityError
from sqlmodel import SQLModel

from colony.records import CareDone, CareRhythm, WaterLimit, WaterRegime, every_table
from colony.store.book import Book, open_book
from colony.store.engine import make_engine, writing
from colony.store.schema.upgrade import upgrade


@pytest.mark.filterwarnings("ignore:.*expression-based index")
def test_the_scripts_make_what_the_records_say(book: Book) -> None:
    """After all scripts, nothing is left that the records have and the database has not."""
    with book.engine.connect() as connection:
        differences = compare_metadata(MigrationContext.configure(connection), every_table())
    assert [
        difference
        for difference in differences
        if "work" not in str(difference) and "move_to_do" not in str(difference)
    ] == []


def test_an_old_book_is_brought_up_with_a_copy_kept(tmp_path: Path) -> None:
    """Tanks of a book of schema 0001 are there after opening it, and a backup stands beside it."""
    path = tmp_path / "old.colony"
    with writing(make_engine(str(path))).begin() as connection:
        upgrade(connection, to="0001")
    with contextlib.closing(sqlite3.connect(path)) as old:
        old.execute("INSERT INTO system (name) VALUES ('Main')")
        old.execute("INSERT INTO species (name, scientific_name) VALUES ('family', 'Rays')")
        old.commit()
    opened = open_book(str(path))
    with opened.engine.connect() as connection:
        assert connection.exec_driver_sql("SELECT name FROM system").scalar() == "Main"
        assert connection.exec_driver_sql("SELECT count(*) FROM care_done").scalar() == 0
    opened.close()
    assert list(tmp_path.glob("backups/*0001*"))


DAY = date(2025, 1, 1)

RULES_BROKEN = (
    CareRhythm(task="feeding", started=DAY, times_a_day=2, every_days=2),
    CareRhythm(task="", started=DAY),
    CareDone(task="feeding", done_on=DAY),
    WaterRegime(system_id=1, started=DAY),
    WaterRegime(system_id=1, started=DAY, percent=60, every_days=7),
    WaterLimit(parameter="ph", low=8, high=6, source="own"),
    WaterLimit(parameter="ph", source="own"),
)


@pytest.mark.parametrize("record", RULES_BROKEN, ids=lambda one: type(one).__name__)
def test_the_database_itself_refuses_what_cannot_be(book: Book, record: SQLModel) -> None:
    """Twice a day every other day, a task that is none, a change beyond its limit: not written."""
    insert = record.__table__.insert().values(**record.model_dump(exclude={"id"}))  # type: ignore[attr-defined]
    with book.engine.begin() as connection:
        connection.exec_driver_sql("INSERT INTO system (name) VALUES ('Main')")
    with book.engine.connect() as connection, pytest.raises(IntegrityError):
        connection.execute(insert)
