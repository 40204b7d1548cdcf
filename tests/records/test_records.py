"""The room of records: every table is known, and none is loaded before it is asked for."""

import subprocess
import sys
from importlib import import_module
from pathlib import Path

from sqlmodel import SQLModel

from colony import records
from colony.records import TABLES, every_table

ROOM = Path(records.__file__).parent


def test_every_table_of_the_room_is_named_in_its_list() -> None:
    """A new module of tables that is not listed would be in no schema and no journal."""
    modules = {path.stem for path in ROOM.glob("*.py")} - {"__init__", "columns", "rules"}
    classes = {
        name: value
        for module in modules
        for name, value in vars(import_module(f"{records.__name__}.{module}")).items()
        if isinstance(value, type)
        and issubclass(value, SQLModel)
        and value.__module__.endswith(f".{module}")
    }
    assert {name: getattr(load(), name) for name, (load, _) in TABLES.items()} == classes
    assert {*TABLES, "every_table", "record_of"} == set(records.__all__)


def test_every_table_is_in_the_metadata_with_all_its_keys() -> None:
    """No key refers to a table that is not there: the order of all can be told."""
    assert len(every_table().sorted_tables) == len(TABLES)


def test_one_table_loads_no_other() -> None:
    """Reading who is where builds no water tests."""
    code = "import sys; from colony.records import Animal; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOM.parents[1],
    )
    loaded = {one for one in done.stdout.split() if one.startswith("colony.records.")}
    assert loaded == {f"colony.records.{one}" for one in ("animals", "columns", "rules")}
