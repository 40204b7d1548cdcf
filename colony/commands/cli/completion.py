"""Complete tags in the shell, without loading the tables: it has to be instant."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import typer

MOST = 200


def complete_tag(ctx: typer.Context, incomplete: str) -> list[str]:
    """Tags of present animals that begin with what was typed, in the book that was named."""
    from colony.store.location import book_location, is_url

    location = book_location(_named_book(ctx))
    if is_url(location):
        return []
    uri = Path(location).absolute().as_uri()
    pattern = incomplete.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_") + "%"
    try:
        with closing(sqlite3.connect(f"{uri}?mode=ro", uri=True)) as book:
            found = book.execute(
                "SELECT tag FROM animal WHERE status = 'present' AND tag LIKE ? ESCAPE '\\'"
                " ORDER BY tag LIMIT ?",
                (pattern, MOST),
            )
            return [tag for (tag,) in found if tag.isprintable()]
    except sqlite3.Error:
        return []


def _named_book(ctx: typer.Context | None) -> str | None:
    """What stands at ``--book``, before the subject or after it."""
    asked: Any = ctx
    while asked is not None:
        if asked.params.get("book"):
            return str(asked.params["book"])
        asked = asked.parent
    return None
