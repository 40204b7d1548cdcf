"""Waiting for another act to end: who waits is told after a second, and for whom."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Timer

from sqlalchemy import Engine, text
from sqlalchemy.exc import SQLAlchemyError

from colony.store.engine import TURN_KEY

TOLD_AFTER_SECONDS = 1.0

_HOLDER = text(
    """
    SELECT usename, application_name, host(client_addr)
    FROM pg_locks JOIN pg_stat_activity USING (pid)
    WHERE locktype = 'advisory' AND granted
    AND (classid::bigint << 32) + objid::bigint = :key
    """
)


@contextmanager
def told_after_a_second(engine: Engine, tell: Callable[[str], None] | None) -> Iterator[None]:
    """While something is waited for longer than a second, tell it once, from another thread."""
    if tell is None:
        yield
        return
    timer = Timer(TOLD_AFTER_SECONDS, lambda: tell(_in_words(engine)))
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()


def _in_words(engine: Engine) -> str:
    return f"Waiting for {_holder(engine)} to end an act in this book."


def _holder(engine: Engine) -> str:
    if engine.dialect.name == "postgresql":
        try:
            with engine.connect() as connection:
                found = connection.execute(_HOLDER, {"key": TURN_KEY}).first()
        except SQLAlchemyError:
            found = None
        if found is not None:
            return " ".join(filter(None, (found[0], found[1], found[2])))
    return "another program"
