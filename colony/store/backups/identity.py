"""Which book is at a place: its id, which its backups carry."""

from contextlib import closing, suppress
from pathlib import Path

from sqlalchemy import Engine, Table, select, update
from sqlalchemy.exc import SQLAlchemyError

from colony.records import BookIdentity
from colony.refusals.books import CopyDamaged
from colony.store.backups.manifest import book_in
from colony.store.backups.verification import begins_as_database
from colony.store.engine import make_engine, turn
from colony.store.location import is_url

_BOOK: Table = BookIdentity.__table__  # type: ignore[attr-defined] # sqlmodel adds it


def identity_at(location: str) -> str | None:
    """The id of the book at a place; None where there is none that can tell."""
    if not is_url(location):
        with suppress(CopyDamaged):
            if begins_as_database(Path(location)):
                return book_in(Path(location))
        return None
    engine = make_engine(location)
    with closing(_Disposed(engine)), suppress(SQLAlchemyError), engine.connect() as connection:
        return str(connection.execute(select(_BOOK.c.id)).scalar_one())
    return None


def take_identity(engine: Engine, book: str) -> None:
    """Let a book be the one of this id."""
    with turn(engine) as connection:
        connection.execute(update(_BOOK).values(id=book))


class _Disposed:
    """An engine that is let go of at the end."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def close(self) -> None:
        self._engine.dispose()
