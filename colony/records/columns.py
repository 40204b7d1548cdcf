"""What every table shares: strict column types, and its rules as CHECK constraints.

Rules are written in the SQL that SQLite and PostgreSQL share, or say whose they are. On SQLite the tables
are STRICT, so dates and flags are declared as the plain types that STRICT allows.
"""

from typing import Any

from sqlalchemy import Boolean, CheckConstraint, Column, Date, Float, ForeignKey, Integer, String
from sqlalchemy.ext.compiler import compiles
from sqlmodel import Field, SQLModel

from colony.records.rules import Rules

STRICT: dict[str, Any] = {"sqlite_strict": True}

SQLModel.metadata.naming_convention = {
    "ix": "ix_%(table_name)s_%(column_0_name)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}


@compiles(String, "sqlite")
def _text(_type: String, _compiler: object, **_: object) -> str:
    return "TEXT"


@compiles(Date, "sqlite")
def _date_as_text(_type: Date, _compiler: object, **_: object) -> str:
    return "TEXT"


@compiles(Boolean, "sqlite")
def _flag_as_integer(_type: Boolean, _compiler: object, **_: object) -> str:
    return "INTEGER"


@compiles(Float, "sqlite")
def _real(_type: Float[float], _compiler: object, **_: object) -> str:
    return "REAL"


def checks(rules: Rules) -> tuple[CheckConstraint, ...]:
    """The CHECK constraints of a table, from its rules."""
    found = []
    for rule in rules:
        check = CheckConstraint(rule.sql, name=rule.name)
        if rule.in_schema:
            found.append(check.ddl_if(dialect=rule.dialect) if rule.dialect else check)
    return tuple(found)


def kin(target: str, *, after: bool = False) -> Any:  # noqa: ANN401 - what sqlmodel.Field returns
    """Refer to a parent or a litter that may be written later in the same act.

    The key is checked at commit; `after` adds it once both tables of a circle exist.
    """
    key = ForeignKey(target, deferrable=True, initially="DEFERRED", use_alter=after)
    return Field(default=None, sa_column=Column(Integer, key, index=True))
