"""What was asked of a plan, with every name as the book writes it."""

from collections.abc import Mapping
from dataclasses import replace

from sqlmodel import Session, col, select

from colony.acts.pairings.rules import rules_of_book
from colony.planning.pairings.eligibility import KIN
from colony.planning.pairings.request import Pair, PairingRequest
from colony.records import Animal
from colony.refusals.animals import NoSuchSpecies
from colony.refusals.pairings import KindTwice, NoSuchKind
from colony.store.lookup import find_animal, find_species
from colony.store.settings import read_settings


def request_of_book(session: Session, request: PairingRequest) -> PairingRequest:
    """The request with every tag, rule, species and line as the book writes it.

    Where no limit of F is asked for, that of the book holds, unless near kin is overridden.

    Raises
    ------
    NoSuchTag, NoSuchSpecies, NoSuchRule, NoSuchKind, KindTwice
    """
    overridden = rules_of_book(session, request.overridden)
    limit = None if KIN in overridden else read_settings(session).kinship_limit
    asked = request.highest_inbreeding
    return replace(
        request,
        highest_inbreeding=limit if asked is None else asked,
        required_pairs=_pairs(session, request.required_pairs),
        forbidden_pairs=_pairs(session, request.forbidden_pairs),
        excluded=frozenset(find_animal(session, tag).tag for tag in request.excluded),
        overridden=overridden,
        wanted=_wanted(session, request.wanted),
        species=find_species(session, request.species).name if request.species else None,
    )


def _pairs(session: Session, pairs: frozenset[Pair]) -> frozenset[Pair]:
    return frozenset(
        (find_animal(session, dam).tag, find_animal(session, sire).tag) for dam, sire in pairs
    )


def _wanted(session: Session, wanted: Mapping[str, int]) -> dict[str, int]:
    """Litters wanted by the short name of a species, or by the name of a line."""
    if not wanted:
        return {}
    lines = {
        line.casefold(): line
        for line in session.exec(select(Animal.line).where(col(Animal.line).is_not(None)))
        if line
    }
    found: dict[str, int] = {}
    for written, count in wanted.items():
        name = _kind(session, written, lines)
        if name in found:
            raise KindTwice(name)
        found[name] = count
    return found


def _kind(session: Session, written: str, lines: Mapping[str, str]) -> str:
    line = lines.get(written.casefold())
    if line is not None:
        return line
    try:
        return find_species(session, written).name
    except NoSuchSpecies as unknown:
        raise NoSuchKind(written, [*unknown.known, *sorted(lines.values())]) from None
