"""Who may be paired with an animal, least related first, and why the others are left out."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.pairings.rules import rules_of_book
from colony.planning.pairings.eligibility import (
    GONE,
    SAME_SEX,
    Bar,
    both_are,
    is_overridden,
    not_here,
    why_not,
)
from colony.planning.pairings.partners import rank_partners
from colony.records import Animal
from colony.refusals.pairings import PartnerNeedsSex
from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import Herd, read_places
from colony.store.readers.pairings.candidates import read_candidates
from colony.store.readers.pedigree import read_lineage
from colony.store.settings import read_settings


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
    hopeless = _hopeless(lineage.herd, asking, overridden)
    judged = frozenset(lineage.herd.position.keys() - hopeless.keys())
    candidates = read_candidates(session, lineage.herd, today, of=judged)
    kinship, means = lineage.kinship_and_mean(list(candidates), asking.id)
    ranking = rank_partners(
        candidates[asking.id],
        list(candidates.values()),
        kinship,
        means,
        today=today,
        overridden=overridden,
        limit=read_settings(session).kinship_limit,
    )
    places = read_places(session, today)
    tank_of = {candidate.tag: places.get(animal_id) for animal_id, candidate in candidates.items()}
    # Who has the least against them is named first.
    ordered = sorted(ranking.left_out, key=lambda left_out: (len(left_out.reasons), left_out.tag))
    return Picked(
        tag=asking.tag,
        cautions=_sentences(why_not(candidates[asking.id], today, overridden)),
        partners=[
            PartnerLine(
                tag=partner.tag,
                kinship=partner.kinship,
                expected_inbreeding=partner.expected_inbreeding,
                mean_kinship=partner.mean_kinship,
                reasons=_sentences(partner.reasons),
                tank=tank_of[partner.tag],
            )
            for partner in ranking.ranked
        ],
        left_out=[
            *(LeftOutLine(left_out.tag, _sentences(left_out.reasons)) for left_out in ordered),
            *hopeless.values(),
        ],
    )


def _hopeless(herd: Herd, asking: Animal, overridden: frozenset[str]) -> dict[int, LeftOutLine]:
    """Who is of the same sex, then who is gone: reason enough, unless it was set aside."""
    same_sex: dict[int, LeftOutLine] = {}
    gone: dict[int, LeftOutLine] = {}
    for row in herd.rows:
        tags: tuple[str, ...] = (row.tag,)
        if row.status != "present":
            why, lines = Bar(GONE, not_here(row.status, row.ended_on) or ""), gone
        elif both := both_are(row.sex, asking.sex):
            why, lines = Bar(SAME_SEX, both), same_sex
            tags = (row.tag, asking.tag)
        else:
            continue
        if row.id != asking.id and not is_overridden(why, tags, overridden):
            lines[row.id] = LeftOutLine(row.tag, _sentences([why]))
    return same_sex | gone


def _sentences(reasons: Iterable[Bar]) -> list[str]:
    return [f"{reason.name}: {reason.text}" for reason in reasons]
