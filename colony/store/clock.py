"""The one clock of the store, so that a test can set it."""

import datetime as dt


def now() -> dt.datetime:
    """The moment it is, UTC."""
    return dt.datetime.now(dt.UTC)
