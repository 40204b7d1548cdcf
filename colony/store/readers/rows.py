"""Rows of columns, read without the cost of objects that could be changed."""

from typing import TypeVarTuple, Unpack

from sqlalchemy import CursorResult, Select
from sqlmodel import Session

Columns = TypeVarTuple("Columns")


def read_rows(session: Session, query: Select[Unpack[Columns]]) -> CursorResult[Unpack[Columns]]:
    """Every row of a select of columns, with what the session has not written yet."""
    session.flush()
    return session.connection().execute(query)
