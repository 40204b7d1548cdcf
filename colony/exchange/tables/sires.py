"""Several possible sires in one cell: ``Bruno=0.7 Caro=0.3`` or ``Bruno/Caro``."""

import math
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from colony.notation.shares import UNKNOWN_SIRE, SireShare, parse_sires

_WITH_SHARES = re.compile(r"\s*([^=]+?)\s*=\s*([\d.,]*\d%?)(?:[\s,;/]+|$)", re.ASCII)
_SAME_SHARE = 1e-8
_BETWEEN = re.compile(r"\s*[,;/]\s*|\s+or\s+")


def read_sires(cell: str, is_tag: Callable[[str], bool]) -> tuple[SireShare, ...]:
    """Read who may be the sire; without shares all are equally likely.

    Parameters
    ----------
    is_tag
        Tells whether a text is a tag as a whole, so that a tag may hold a stroke or a space.

    Raises
    ------
    UnreadableShare, SireTwice, SharesDoNotSum, BadTag
        As `parse_sires`.
    """
    if is_tag(cell):
        return parse_sires([cell])
    if "=" in cell:
        parts = [f"{tag}={share.rstrip(',.')}" for tag, share in _WITH_SHARES.findall(cell)]
        whole = not _WITH_SHARES.sub("", cell).strip()
        return parse_sires(parts if parts and whole else [cell])
    return parse_sires([part for part in _BETWEEN.split(cell) if part] or [cell])


def write_sires(sires: Sequence[SireShare]) -> str:
    """Write possible sires so that `read_sires` takes back the same shares to nine decimals."""
    if len(sires) == 1:
        return sires[0].tag or UNKNOWN_SIRE
    shares = (f"{sire.tag or UNKNOWN_SIRE}={sire.share:.9f}" for sire in sires)
    return " ".join(share.rstrip("0") for share in shares)


def same_sires(some: Sequence[SireShare], others: Sequence[SireShare]) -> bool:
    """Tell whether two ways to write possible sires mean the same."""
    first, second = (
        {sire.tag and sire.tag.casefold(): sire.share for sire in sires} for sires in (some, others)
    )
    return first.keys() == second.keys() and all(
        math.isclose(first[tag], second[tag], abs_tol=_SAME_SHARE) for tag in first
    )


def split_sires(sires: tuple[SireShare, ...]) -> dict[str, Any]:
    """One known sire is the `sire` of an animal; several, or somebody unknown, are possible ones."""
    if len(sires) == 1 and sires[0].tag:
        return {"sire": sires[0].tag, "possible_sires": ()}
    return {"sire": None, "possible_sires": sires}


def sires_of(values: Mapping[str, Any]) -> tuple[SireShare, ...]:
    """Who may be the sire, of the values of an animal."""
    if values.get("sire"):
        return (SireShare(values["sire"], 1.0),)
    return tuple(values.get("possible_sires") or ())
