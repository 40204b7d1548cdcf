"""The page on the data: every table, column, unit and rule, from the records themselves."""

import inspect
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from sqlalchemy import CheckConstraint, Column, Index, Table, UniqueConstraint
from sqlmodel import SQLModel

from colony.records import every_table

COLUMNS = tomllib.loads((Path(__file__).parent / "columns.toml").read_text("utf-8"))
"""What a column means whose record does not say it, by table; those of every table by `every`."""

TYPES = {
    "INTEGER": "integer",
    "FLOAT": "number",
    "VARCHAR": "text",
    "DATE": "day",
    "BOOLEAN": "yes/no",
}

UNITS = {
    "_mm": "mm",
    "_g": "g",
    "_l": "l",
    "_l_a_day": "l/day",
    "_percent": "%",
    "_percent_a_day": "%/day",
    "_days": "days",
    "litres": "l",
    "percent": "%",
}
"""The unit that the end of a column's name says."""

BEYOND_ROWS = {
    "placement": "No animal is in two tanks on one day: the database refuses a placement from "
    "`entered_on` until before `left_on` that meets another of the same animal.",
    "journal": "Append-only: the database refuses to change or delete an entry.",
}
"""What the schema holds to across rows, by triggers and exclusions that no column can say."""

HEAD = """# The data

Every table of a book, from the records in `colony/records/` by `python docs/generate.py`.

A day is an ISO 8601 date; in a file of SQLite it is a text, checked to be a day of the
calendar. Lengths are whole millimetres, masses grams, volumes litres. A column that may be
empty says so; empty means not known, or what its sentence says. A key that refers to a row
is held by the database, and so is every rule below, whoever writes: a rule is a CHECK
constraint, kept also where what it compares is empty.

The tables hold what somebody saw or did. Nothing that can be computed (F, kinship, due windows,
forecasts, loads) is written down. Every act writes one row in `journal` with each row that it
changed, before and after, in the same transaction; from these entries alone the whole book can
be made anew (`colony book rebuild`), and the last act be taken back (`colony book undo`)."""


def data_model_page() -> str:
    """Every table, subject by subject."""
    parts, subject = [HEAD], ""
    for record in every_record():
        here = record.__module__.rpartition(".")[2]
        if here != subject:
            subject = here
            parts += ["", f"## {subject.capitalize()}"]
        parts += ["", *_table(record)]
    return "\n".join([*parts, ""])


def every_record() -> list[type[SQLModel]]:
    """The class of each table, subject by subject, as they stand in their files."""
    every_table()
    found = [mapper.class_ for mapper in SQLModel._sa_registry.mappers]  # noqa: SLF001 - sqlmodel has no other list of them
    return sorted(found, key=lambda kind: (kind.__module__, inspect.getsourcelines(kind)[1]))


def columns_without_sentence() -> list[str]:
    """The columns that no sentence explains, and the sentences of no column."""
    real = {
        f"{table_of(record).name}.{column.name}"
        for record in every_record()
        for column in table_of(record).columns
        if not _described(record, column.name)
    }
    told = {f"{table}.{column}" for table, says in COLUMNS.items() for column in says}
    shared = {column for column in real if column.partition(".")[2] in COLUMNS["every"]}
    return sorted(
        (real - told - shared) | {name for name in told - real if not name.startswith("every.")}
    )


def _table(record: type[SQLModel]) -> Iterator[str]:
    table = table_of(record)
    yield f"### {table.name}"
    yield ""
    yield _prose(record)
    yield ""
    yield "| column | type | unit | refers to | what it is |"
    yield "| --- | --- | --- | --- | --- |"
    for column in table.columns:
        yield _row(record, column)
    rules = [*_rules(record, table), *_unique(table)]
    if table.name in BEYOND_ROWS:
        rules.append(BEYOND_ROWS[table.name])
    if rules:
        yield ""
        yield from (f"- {rule}" for rule in rules)


def _prose(record: type) -> str:
    return re.sub(r"(?<!\n)\n(?!\n)", " ", inspect.getdoc(record) or "")


def table_of(record: type[SQLModel]) -> Table:
    """The table of a record."""
    table: Table = record.__table__  # type: ignore[attr-defined]
    return table


def _described(record: type[SQLModel], column: str) -> str:
    """The sentence that stands at the column itself, if there is one."""
    return record.model_fields[column].description or ""


def _row(record: type[SQLModel], column: "Column[Any]") -> str:
    kind = TYPES[str(column.type)] + (", may be empty" if column.nullable else "")
    refers = ", ".join(f"`{key.target_fullname}`" for key in column.foreign_keys)
    table = COLUMNS.get(table_of(record).name, {})
    says = (
        _described(record, column.name) or table.get(column.name) or COLUMNS["every"][column.name]
    )
    return f"| `{column.name}` | {kind} | {unit_of(column.name)} | {refers} | {says} |"


def unit_of(column: str) -> str:
    """The unit that a column's name ends in, or nothing."""
    ends = [end for end in UNITS if column.endswith(end)]
    return UNITS[max(ends, key=len)] if ends else ""


def _rules(record: type, table: Table) -> Iterator[str]:
    """Each CHECK by its name, with its SQL; where the records say a sentence, by that."""
    sentences = {rule.name: rule.sentence for rule in getattr(record, "RULES", ())}
    checks = [check for check in table.constraints if isinstance(check, CheckConstraint)]
    for check in sorted(checks, key=lambda check: str(check.name)):
        name = str(check.name).removeprefix(f"ck_{table.name}_")
        yield f"{sentences.get(name, name.replace('_', ' ').capitalize())}: `{check.sqltext}`"


def _unique(table: Table) -> list[str]:
    """What no two rows may share."""
    keys = [key for key in table.constraints if isinstance(key, UniqueConstraint)]
    indexes = [index for index in table.indexes if index.unique]
    return sorted(
        [_no_two([column.name for column in key.columns]) for key in keys]
        + [_no_two([str(part) for part in index.expressions], _only(index)) for index in indexes]
    )


def _only(index: Index) -> str:
    where = index.dialect_options["sqlite"]["where"]
    return "" if where is None else f", where `{where}`"


def _no_two(columns: list[str], only: str = "") -> str:
    names = " and ".join(f"`{name.rpartition('.')[2]}`" for name in columns)
    return f"No two rows have the same {names}{only}."
