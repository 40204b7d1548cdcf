"""What every table shares: strict column types, and the shapes of its CHECK constraints.

Constraints are written in the SQL that SQLite and PostgreSQL share, or say whose they are. On SQLite the tables
are STRICT, so dates and flags are declared as the plain types that STRICT allows.
"""

from collections.abc import Sequence
from typing import Any

from sqlalchemy import Boolean, CheckConstraint, Column, Date, Float, ForeignKey, Integer, String
from sqlalchemy.ext.compiler import compiles
from sqlmodel import Field, SQLModel

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


def one_of(column: str, choices: Sequence[str]) -> CheckConstraint:
    """Hold a text column to a list of words."""
    words = ", ".join(f"'{choice}'" for choice in choices)
    return CheckConstraint(f"{column} IN ({words})", name=f"{column}_is_known")


def is_day(column: str) -> CheckConstraint:
    """Hold a date column to real calendar days; SQLite has no date type of its own.

    Without its ``+0 days`` SQLite takes 30 February as it stands.
    """
    sql = f"{column} IS date({column}, '+0 days')"
    return CheckConstraint(sql, name=f"{column}_is_a_day").ddl_if(dialect="sqlite")


def is_flag(column: str) -> CheckConstraint:
    """Hold a yes/no column to yes and no; SQLite has no boolean of its own."""
    return CheckConstraint(f"{column} IN (true, false)", name=f"{column}_is_yes_or_no")


def positive(column: str) -> CheckConstraint:
    """Hold a measure above nothing, where it is known."""
    return CheckConstraint(f"{column} > 0", name=f"{column}_is_positive")


def in_order(first: str, then: str) -> CheckConstraint:
    """Hold two dates in order, where both are known."""
    return CheckConstraint(f"{then} >= {first}", name=f"{then}_follows_{first}")


def kin(target: str, *, after: bool = False) -> Any:  # noqa: ANN401 - what sqlmodel.Field returns
    """Refer to a parent or a litter that may be written later in the same act.

    The key is checked at commit; `after` adds it once both tables of a circle exist.
    """
    key = ForeignKey(target, deferrable=True, initially="DEFERRED", use_alter=after)
    return Field(default=None, sa_column=Column(Integer, key, index=True))
