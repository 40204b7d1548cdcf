"""Rows of columns, read without the cost of objects that could be changed."""

from collections.abc import Sequence
from typing import TypeVarTuple

from sqlalchemy import Row, Select
from sqlmodel import Session

Columns = TypeVarTuple("Columns")


def read_rows(session: Session, query: Select[*Columns]) -> Sequence[Row[*Columns]]:
    """Every row of a select of columns, with what the session has not written yet."""
    session.flush()
    return session.connection().execute(query).all()
