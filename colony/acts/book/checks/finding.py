"""What a check finds, and what a check is."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.refusals.base import AnotherAct


@dataclass(frozen=True)
class Finding:
    """Something that is wrong or odd, where, and the acts that put it right.

    Any one of the `remedies` does, or all of them `in_turn`; `advice` is for what no act does.
    `accepted` is the reason that the breeder gave when it was done.
    """

    check: str
    wrong: bool
    where: str
    problem: str
    remedies: tuple[AnotherAct, ...] = ()
    in_turn: bool = False
    advice: str = ""
    accepted: str = ""

    @property
    def level(self) -> str:
        """``wrong``: no act of ours makes it; ``accepted``: the breeder said why; else ``odd``."""
        return "wrong" if self.wrong else "accepted" if self.accepted else "odd"


Check = Callable[[Session, date], Iterator[Finding]]
"""Looks at the whole book as of today, and yields what it finds."""
