"""How a breeder writes who may be the sire: ``Bruno`` alone, or ``Bruno=0.7`` and ``Caro=0.3``."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

from colony.notation.tags import parse_tag
from colony.refusals.notation import SharesDoNotSum, SireTwice, UnreadableShare

UNKNOWN_SIRE = "unknown"
"""Written for a sire that is none of the animals in the book."""

_ROUNDING = 0.005
"""How far each written share may be off: thirds are written with two digits."""

_FRACTION = re.compile(r"(?:0?[.,]\d{1,9}|[01](?:[.,]\d{1,9})?|\d{1,3}(?:[.,]\d{1,6})?%)", re.ASCII)


@dataclass(frozen=True)
class SireShare:
    """One possible sire and how likely it is; `tag` is None for somebody unknown."""

    tag: str | None
    share: float


def parse_sires(texts: Sequence[str]) -> tuple[SireShare, ...]:
    """Read one or several possible sires; without shares they are equally likely.

    Raises
    ------
    UnreadableShare
        A share is no number from 0 to 1 (or percentage), or only some have one.
    SireTwice
        A sire stands twice.
    SharesDoNotSum
        The shares do not sum to 1.
    """
    written = [_split(text) for text in texts]
    _refuse_twice([tag for tag, _ in written])
    given = [share for _, share in written if share is not None]
    if given and len(given) != len(written):
        raise UnreadableShare(next(tag or UNKNOWN_SIRE for tag, share in written if share is None))
    if given and not math.isclose(sum(given), 1, abs_tol=_ROUNDING * len(given) + 1e-9):
        raise SharesDoNotSum(sum(given))
    equal = 1 / max(len(written), 1)
    total = sum(given) or 1
    return tuple(
        SireShare(tag, equal if share is None else share / total) for tag, share in written
    )


def show_sires(sires: Sequence[SireShare]) -> list[str]:
    """Write possible sires as they are typed: ``["Bruno=0.7", "Caro=0.3"]``, or the one tag alone."""
    if len(sires) == 1:
        return [sires[0].tag or UNKNOWN_SIRE]
    return [f"{sire.tag or UNKNOWN_SIRE}={sire.share:.4g}" for sire in sires]


def _split(text: str) -> tuple[str | None, float | None]:
    tag, equals, share = text.rpartition("=")
    if not equals:
        return _sire(text), None
    if not _FRACTION.fullmatch(share.strip()):
        raise UnreadableShare(text)
    plain = share.strip().replace(",", ".")
    fraction = float(plain.rstrip("%")) / (100 if plain.endswith("%") else 1)
    if not 0 < fraction <= 1:
        raise UnreadableShare(text)
    return _sire(tag), fraction


def _sire(text: str) -> str | None:
    tag = parse_tag(text)
    return None if tag.casefold() == UNKNOWN_SIRE else tag


def _refuse_twice(tags: Sequence[str | None]) -> None:
    seen: set[str | None] = set()
    for tag in tags:
        fold = tag and tag.casefold()
        if fold in seen:
            raise SireTwice(tag or UNKNOWN_SIRE)
        seen.add(fold)
