"""Rules of pairing that are not to be held against somebody, as the breeder names them."""

from collections.abc import Iterable

from sqlmodel import Session

from colony.planning.pairings.eligibility import KIN, PAIR_RULES, RULES, unknown_rules
from colony.refusals.pairings import NoSuchRule
from colony.store.lookup import find_animal


def rules_of_book(session: Session, overridden: Iterable[str]) -> frozenset[str]:
    """Rules to override (``rest``, ``rest:alma``) with the tags as the book writes them.

    Raises
    ------
    NoSuchRule, NoSuchTag
    """
    asked = frozenset(overridden)
    if unknown := unknown_rules(asked):
        raise NoSuchRule(unknown[0], [*RULES, *PAIR_RULES, KIN])
    named = set()
    for word in asked:
        name, colon, tag = word.partition(":")
        named.add(f"{name}:{find_animal(session, tag).tag}" if colon else name)
    return frozenset(named)
