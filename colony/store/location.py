"""Where a book is kept: a file, or the URL of a PostgreSQL database."""

import os
from pathlib import Path

BOOK_VARIABLE = "COLONY_BOOK"


def book_location(asked: str | None = None) -> str:
    """The book that was asked for, else the one in COLONY_BOOK, else the user's own."""
    return asked or os.environ.get(BOOK_VARIABLE) or str(_users_book())


def is_url(location: str) -> bool:
    """Tell a database URL from a file path."""
    return "://" in location


def _users_book() -> Path:
    import platformdirs  # noqa: PLC0415 - most calls name their book

    return Path(platformdirs.user_data_dir("colony", appauthor=False)) / "book.colony"
