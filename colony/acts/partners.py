"""Who may be paired with an animal, least related first, and why the others are left out."""

from collections.abc import Container, Iterable
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.pairing_rules import rules_of_book
from colony.planning.eligibility import GONE, Reason, not_here, why_not
from colony.planning.partners import LeftOut, rank_partners
from colony.refusals.pairings import PartnerNeedsSex
from colony.store.lookup import find_animal
from colony.store.readers.candidates import read_candidates
from colony.store.readers.herd import Herd, read_places
from colony.store.readers.pedigree import read_lineage


@dataclass(frozen=True)
class PartnerLine:
    """A partner, what its pups would be, and which rules were overridden for it."""

    tag: str
    kinship: float
    expected_inbreeding: float
    mean_kinship: float
    reasons: list[str]
    tank: str | None


@dataclass(frozen=True)
class LeftOutLine:
    """An animal that is left out, with all its reasons as ``rule: why``."""

    tag: str
    reasons: list[str]


@dataclass(frozen=True)
class Picked:
    """Partners of one animal, best first; `cautions` are the reasons against itself."""

    tag: str
    cautions: list[str]
    partners: list[PartnerLine]
    left_out: list[LeftOutLine]


def pick_partners(
    session: Session, *, tag: str, overridden: frozenset[str] = frozenset(), today: date
) -> Picked:
    """Rank the partners of an animal by kinship, then mean kinship.

    Everybody else is left out with all reasons; who misses least comes first.

    Raises
    ------
    NoSuchTag, PartnerNeedsSex, NoSuchRule
    """
    overridden = rules_of_book(session, overridden)
    asking = find_animal(session, tag)
    if asking.sex == "U":
        raise PartnerNeedsSex(asking.tag)
    assert asking.id is not None  # noqa: S101 - it was found in the book
    lineage = read_lineage(session)
    wanted = {asking.id, *_wanted_though_gone(lineage.herd, overridden)}
    candidates = read_candidates(session, lineage.herd, today, also=frozenset(wanted))
    kinship, means = lineage.kinship_and_mean(list(candidates), asking.id)
    ranking = rank_partners(
        candidates[asking.id],
        list(candidates.values()),
        kinship,
        means,
        today=today,
        overridden=overridden,
    )
    places = read_places(session, today)
    tank_of = {one.tag: places.get(animal_id) for animal_id, one in candidates.items()}
    return Picked(
        tag=asking.tag,
        cautions=_told(why_not(candidates[asking.id], today, overridden)),
        partners=[
            PartnerLine(
                tag=one.tag,
                kinship=one.kinship,
                expected_inbreeding=one.expected_inbreeding,
                mean_kinship=one.mean_kinship,
                reasons=_told(one.reasons),
                tank=tank_of[one.tag],
            )
            for one in ranking.ranked
        ],
        left_out=[
            *(
                LeftOutLine(one.tag, _told(one.reasons))
                for one in sorted(ranking.left_out, key=_farness)
            ),
            *_gone(lineage.herd, candidates.keys()),
        ],
    )


def _wanted_though_gone(herd: Herd, overridden: frozenset[str]) -> Iterable[int]:
    """Animals that are gone and asked about nevertheless."""
    if not any(rule.partition(":")[0] == GONE for rule in overridden):
        return ()
    return (
        row.id
        for row in herd.rows
        if row.status != "present" and not overridden.isdisjoint({GONE, f"{GONE}:{row.tag}"})
    )


def _gone(herd: Herd, judged: Container[int]) -> Iterable[LeftOutLine]:
    """Most of a book is of animals long gone: that is reason enough against them."""
    for row in herd.rows:
        if row.id not in judged:
            yield LeftOutLine(row.tag, [f"{GONE}: {not_here(row.status, row.ended_on)}"])


def _farness(one: LeftOut) -> tuple[bool, int, str]:
    """The same sex cannot be helped; the others by how much speaks against them."""
    hopeless = any(reason.name == "same_sex" for reason in one.reasons)
    return hopeless, len(one.reasons), one.tag


def _told(reasons: Iterable[Reason]) -> list[str]:
    return [f"{reason.name}: {reason.text}" for reason in reasons]
