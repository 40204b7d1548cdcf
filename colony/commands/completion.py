"""Complete tags in the shell, without loading the tables: it has to be instant."""

import sqlite3
from contextlib import closing

MOST = 200


def complete_tag(incomplete: str) -> list[str]:
    """Tags of present animals that begin with what was typed."""
    from colony.store.location import book_location, is_url

    location = book_location()
    if is_url(location):
        return []
    pattern = incomplete.replace("\\", "\\\\").replace("%", "\\%").replace("_", "\\_") + "%"
    try:
        with closing(sqlite3.connect(f"file:{location}?mode=ro", uri=True)) as book:
            found = book.execute(
                "SELECT tag FROM animal WHERE status = 'present' AND tag LIKE ? ESCAPE '\\'"
                " ORDER BY tag LIMIT ?",
                (pattern, MOST),
            )
            return [tag for (tag,) in found]
    except sqlite3.Error:
        return []
