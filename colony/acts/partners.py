"""Who may be paired with an animal, least related first, and why the others are left out."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np
from sqlmodel import Session

from colony.acts.plan_wishes import rules_of_book
from colony.pedigree.graph import FloatArray
from colony.planning.eligibility import Candidate, Reason, why_not
from colony.planning.partners import LeftOut, rank_partners
from colony.refusals.pairings import PartnerNeedsSex
from colony.store.lookup import find_animal
from colony.store.readers.candidates import read_candidates
from colony.store.readers.herd import read_places
from colony.store.readers.pedigree import Lineage, read_lineage


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
    lineage = read_lineage(session)
    candidates = read_candidates(session, lineage.herd, today)
    assert asking.id is not None  # noqa: S101 - it was found in the book
    kinship, means = _measures(lineage, candidates, asking.id)
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
            LeftOutLine(one.tag, _told(one.reasons))
            for one in sorted(ranking.left_out, key=_farness)
        ],
    )


def _measures(
    lineage: Lineage, candidates: Mapping[int, Candidate], asking: int
) -> tuple[FloatArray, FloatArray]:
    """Kinship with the asking animal, and mean kinship, of the living; who is gone counts 0."""
    living = [row.id for row in lineage.herd.rows if row.status == "present"]
    kinship = dict(zip(living, lineage.kinship([asking], living)[0], strict=True))
    means = dict(zip(living, lineage.mean_kinship(living), strict=True))
    return (
        np.array([kinship.get(one, 0.0) for one in candidates]),
        np.array([means.get(one, 0.0) for one in candidates]),
    )


def _farness(one: LeftOut) -> tuple[bool, int, str]:
    """Same sex and gone cannot be helped; the others by how much speaks against them."""
    hopeless = any(reason.name in {"same_sex", "gone"} for reason in one.reasons)
    return hopeless, len(one.reasons), one.tag


def _told(reasons: Iterable[Reason]) -> list[str]:
    return [f"{reason.name}: {reason.text}" for reason in reasons]
