"""What may come of anything that is typed: a value, or one refusal."""

from collections.abc import Callable
from typing import TypeVar

from colony.refusals.base import Refusal

Value = TypeVar("Value")


def value_or_refused(read: Callable[[], Value]) -> Value | None:
    """The value that was read, or None where it was refused as wrong use in one printable line.

    Any other error, and any other refusal, is a failure of the test.
    """
    try:
        return read()
    except Refusal as refusal:
        if refusal.exit_code == 2 and refusal.sentence.isprintable():
            return None
        raise
