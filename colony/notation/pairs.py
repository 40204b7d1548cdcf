"""How a breeder writes a pair, ``Alma*Bruno``, and so many litters of something, ``leopoldi=4``."""

import re
from collections.abc import Iterable

from colony.notation.tags import parse_tag, parse_text
from colony.refusals.notation import UnreadablePair, UnreadableWanted
from colony.refusals.pairings import KindTwice


def parse_pair(text: str) -> tuple[str, str]:
    """Read a dam and a sire with a star between them.

    Raises
    ------
    UnreadablePair
        There are not two tags with one star between them.
    """
    dam, star, sire = text.partition("*")
    if not star or "*" in sire or not dam.strip() or not sire.strip():
        raise UnreadablePair(text)
    return parse_tag(dam), parse_tag(sire)


def parse_wanted(text: str) -> tuple[str, int]:
    """Read the name of a species or line, and how many litters of it are wanted.

    Raises
    ------
    UnreadableWanted
        It is not NAME=NUMBER.
    """
    name, _, count = text.rpartition("=")
    if not name.strip() or not re.fullmatch(r"\s*\d{1,4}\s*", count, re.ASCII):
        raise UnreadableWanted(text)
    return parse_text(name, "name", 80), int(count)


def parse_all_wanted(texts: Iterable[str]) -> dict[str, int]:
    """Read how many litters of each of several species or lines are wanted.

    Raises
    ------
    UnreadableWanted
        One is not NAME=NUMBER.
    KindTwice
        One name stands twice.
    """
    wanted: dict[str, int] = {}
    for name, count in map(parse_wanted, texts):
        if name in wanted:
            raise KindTwice(name)
        wanted[name] = count
    return wanted
