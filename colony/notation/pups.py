"""How a breeder writes a litter: ``2F3M1U``, two females, three males and one not sexed."""

import re
from dataclasses import dataclass

from colony.refusals.notation import TooManyPups, UnreadablePups

MOST_PUPS = 30
"""More than any litter on record for these rays (to 21, P. motoro; range conditions reported to CITES CoP17)."""

_COUNT_AND_SEX = re.compile(r"(\d{1,3})\s*([fmu])", re.ASCII)
_LITTER = re.compile(r"(?:\d{1,3}\s*[fmu][\s,+]*)+", re.ASCII)


@dataclass(frozen=True)
class PupCount:
    """Live pups of one litter by sex."""

    females: int = 0
    males: int = 0
    unknown: int = 0

    @property
    def total(self) -> int:
        """All live pups."""
        return self.females + self.males + self.unknown

    def sexes(self) -> str:
        """One letter a pup, females first: ``FFMMMU``."""
        return "F" * self.females + "M" * self.males + "U" * self.unknown

    def __str__(self) -> str:
        counts = ((self.females, "F"), (self.males, "M"), (self.unknown, "U"))
        return "".join(f"{count}{sex}" for count, sex in counts if count) or "0"


def parse_pups(text: str) -> PupCount:
    """Read pups by sex; a bare number means not sexed, ``0`` means none born alive.

    Raises
    ------
    UnreadablePups
        It is not numbers with F, M or U, or a sex stands twice.
    TooManyPups
        More than `MOST_PUPS`.
    """
    plain = text.strip().lower()
    if re.fullmatch(r"\d{1,3}", plain, re.ASCII):
        plain += "u"
    written = _COUNT_AND_SEX.findall(plain) if _LITTER.fullmatch(plain) else []
    counts = {sex: int(count) for count, sex in written}
    if not counts or len(counts) != len(written):
        raise UnreadablePups(text)
    pups = PupCount(counts.get("f", 0), counts.get("m", 0), counts.get("u", 0))
    if pups.total > MOST_PUPS:
        raise TooManyPups(text, MOST_PUPS)
    return pups
