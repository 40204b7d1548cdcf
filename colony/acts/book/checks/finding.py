"""What a check finds, and what a check is."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session


@dataclass(frozen=True)
class Finding:
    """Something that is wrong or odd, where, and the command that mends it."""

    check: str
    wrong: bool
    where: str
    problem: str
    mend: str


Check = Callable[[Session, date], Iterator[Finding]]
"""Looks at the whole book as of today, and yields what it finds."""
