"""A seal: the number of an act and 160 bits of its digest, short enough to give away on paper.

Who holds one can later prove that nothing up to that act was changed, taken out or put in:
whoever makes the chain anew cannot make it end in the same digest (SHA-256, FIPS 180-4). Base32 is
that of RFC 4648. Without a seal kept elsewhere the chain only finds what does not fit itself.
"""

import re
from base64 import b32encode
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, select

from colony.records import JournalEntry
from colony.refusals.history import NoSuchSeal, NothingToSeal
from colony.store.journal.chain import digest_of

BYTES = 20
"""160 bits: 32 letters, and no two journals will ever share them."""

GROUP = 8
"""Letters between two dashes: so many are read aloud at once."""

_SEAL = re.compile(r"(\d{1,18})([A-Z2-7]{32})", re.ASCII)


@dataclass(frozen=True)
class Seal:
    """The number of an act, and the beginning of its digest in base32."""

    acts: int
    letters: str

    def __str__(self) -> str:
        groups = [self.letters[at : at + GROUP] for at in range(0, len(self.letters), GROUP)]
        return "-".join([str(self.acts), *groups])


@dataclass(frozen=True)
class SealAnswer:
    """Whether a seal holds; if not, the first act at which something is wrong, and what."""

    seal: str
    acts: int
    holds: bool
    first: int | None = None
    problem: str | None = None


def parse_seal(text: str) -> Seal:
    """Read a seal as it was written down: spaces, dashes and small letters are no matter.

    Raises
    ------
    NoSuchSeal
    """
    matched = _SEAL.fullmatch(re.sub(r"[\s-]", "", text).upper())
    if matched is None:
        raise NoSuchSeal(text)
    return Seal(int(matched[1]), matched[2])


def seal_of(connection: Connection) -> Seal:
    """The seal of the newest act.

    Raises
    ------
    NothingToSeal
    """
    newest = connection.execute(select(_JOURNAL).order_by(_JOURNAL.c.id.desc()).limit(1))
    entry = newest.mappings().first()
    if entry is None:
        raise NothingToSeal
    return Seal(entry["id"], _letters(digest_of(dict(entry))))


def hold_against(connection: Connection, seal: Seal) -> SealAnswer:
    """Hold the journal up to an act against its seal, reading it page by page."""
    query = select(_JOURNAL).where(_JOURNAL.c.id <= seal.acts).order_by(_JOURNAL.c.id)
    rows = connection.execution_options(yield_per=500).execute(query).mappings()
    return compare((dict(row) for row in rows), seal)


def compare(entries: Iterable[Mapping[str, Any]], seal: Seal) -> SealAnswer:
    """Hold entries in their order, up to the sealed one, against a seal."""
    broken: tuple[int, int] | None = None
    before, expected, newest, fits = 0, "", "", True
    for entry in entries:
        number = int(entry["id"])
        fits = entry["previous"] == expected
        if broken is None and not fits:
            broken = before, number
        elif broken is not None and broken[1] == before and not fits:
            # The link after the broken one is broken too: it was this entry that was changed.
            broken = broken[1], broken[1]
        before, expected = number, digest_of(entry)
        newest = expected
    held = before == seal.acts and _letters(newest) == seal.letters if newest else False
    if held and broken is None:
        return SealAnswer(str(seal), seal.acts, holds=True)
    first, problem = _what(broken, before, seal, held=held)
    return SealAnswer(str(seal), seal.acts, holds=False, first=first, problem=problem)


def _what(
    broken: tuple[int, int] | None, last: int, seal: Seal, *, held: bool
) -> tuple[int | None, str]:
    """The first act at which something is wrong, as well as can be known, and what it is."""
    if broken is None:
        if last < seal.acts:
            return last + 1, f"act {last + 1} and what follows up to {seal.acts} are gone"
        return None, (
            "the acts fit each other and not the seal: the journal was made anew, or the seal is "
            "of another book"
        )
    before, at = broken
    if before == at or (at == seal.acts and not held):
        return at, f"act {at} was changed, or what stood before it"
    if at > before + 1:
        between = f"acts {before + 1} to {at - 1} are gone"
        return before + 1, f"{between}, or act {before} was changed" if before else between
    return before, f"act {before} was changed, or something after it was taken out"


def _letters(digest: str) -> str:
    return b32encode(bytes.fromhex(digest)[:BYTES]).decode("ascii")


_JOURNAL = JournalEntry.__table__  # type: ignore[attr-defined] # sqlmodel adds it
