"""The rules within one row: the same in SQL and in Python, and the CHECKs of the schema."""

import re
import sqlite3
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Boolean, Date, Float, Integer, create_engine, inspect

from colony import records
from colony.records import TABLES, every_table
from colony.records.rules import Rule, rules_of
from colony.store.book import begin_book

RECORDS: dict[str, Any] = {name: getattr(records, name) for name in TABLES}
RULES = [(name, rule) for name, record in RECORDS.items() for rule in rules_of(record)]
DAYS = ("2026-03-09", "2026-03-10", "2026-02-30", "9.3.2026", "2026-3-9", "20260309", "")
LENGTHS = tuple("x" * length for length in (0, 1, 14, 15, 16, 40, 41))
BY_TYPE: tuple[tuple[type, tuple[object, ...]], ...] = (
    (Date, DAYS),
    (Boolean, (0, 1, 2, -1)),
    (Integer, (-1, 0, 1, 2, 3, 50, 101)),
    (Float, (-1.5, 0.0, 0.5, 1.0, 1.5, 13.0, 99.9, 100.0, 100.1, 1e6)),
)


def candidates(rule: Rule, column: Any) -> tuple[object, ...]:  # noqa: ANN401 - a column of any table
    """Values that a column might hold, sound and unsound ones, and NULL where it may be."""
    absent = (None,) if column.nullable else ()
    known = next((values for kind, values in BY_TYPE if isinstance(column.type, kind)), None)
    return (*absent, *(known or (*re.findall(r"'([^']+)'", rule.sql), "another", *LENGTHS)))


def cases(record: Any, rule: Rule) -> Iterator[dict[str, object]]:  # noqa: ANN401 - any table
    """Every row made of these values."""
    columns = record.__table__.c
    for values in product(*(candidates(rule, columns[name]) for name in rule.columns)):
        yield dict(zip(rule.columns, values, strict=True))


@pytest.mark.parametrize(("name", "rule"), RULES, ids=lambda part: getattr(part, "name", part))
def test_a_rule_means_the_same_in_sql_and_in_python(name: str, rule: Rule) -> None:
    """On every row made of sound and unsound values, a NULL passing as it passes a CHECK."""
    with_columns = ", ".join(f"? AS {column}" for column in rule.columns)
    query = f"SELECT ({rule.sql}) FROM (SELECT {with_columns})"  # noqa: S608 - our own rules
    verdicts = set()
    memory = sqlite3.connect(":memory:")
    for row in cases(RECORDS[name], rule):
        ((said,),) = memory.execute(query, tuple(row.values()))
        kept = said is None or bool(said)
        assert bool(rule.keeps(row)) == kept, row
        verdicts.add(kept)
    memory.close()
    assert verdicts == {True, False}


@pytest.mark.parametrize(("name", "rule"), RULES, ids=lambda part: getattr(part, "name", part))
def test_a_rule_names_columns_of_its_table_and_says_which(name: str, rule: Rule) -> None:
    """Its sentence stands alone, and the database that is all that the constraint may be asked of."""
    assert set(rule.columns) <= set(RECORDS[name].__table__.c.keys())
    assert all(re.search(rf"\b{column}\b", rule.sql) for column in rule.columns)
    assert rule.sentence
    assert not rule.sentence.endswith(".")


def test_the_checks_of_the_schema_are_the_rules(tmp_path: Path) -> None:
    """Name and SQL of each CHECK that the scripts make stand once among the rules, and no more."""
    begin_book(str(tmp_path / "new.colony")).close()
    engine = create_engine(f"sqlite:///{tmp_path / 'new.colony'}")
    found = inspect(engine)
    made = {
        (table.name, check["name"]): check["sqltext"]
        for table in every_table().sorted_tables
        for check in found.get_check_constraints(table.name)
    }
    engine.dispose()
    declared = {
        (table.name, f"ck_{table.name}_{rule.name}"): rule.sql
        for record in RECORDS.values()
        for table in [record.__table__]
        for rule in rules_of(record)
        if rule.in_schema
    }
    assert len(declared) == len([1 for _, rule in RULES if rule.in_schema])
    assert made == declared
