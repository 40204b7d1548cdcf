"""Partners for one animal: least related first, and why each of the others is left out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from colony.planning.pairings.eligibility import (
    NOBODY,
    Bar,
    Candidate,
    is_overridden,
    set_aside,
    too_related,
    why_not,
    why_not_together,
)


@dataclass(frozen=True)
class Partner:
    """A partner and what pups with it would be.

    The expected inbreeding of a pup is the kinship of its parents (Wright 1922). `reasons`
    are those that hold against the pair but were overridden, such as a cross asked for.
    """

    tag: str
    kinship: float
    expected_inbreeding: float
    mean_kinship: float
    reasons: tuple[Bar, ...] = ()


@dataclass(frozen=True)
class LeftOut:
    """An animal that is not used, with all its reasons."""

    tag: str
    reasons: tuple[Bar, ...]


@dataclass(frozen=True)
class RankedPartners:
    """Partners of one animal, best first, and all who are left out."""

    ranked: tuple[Partner, ...]
    left_out: tuple[LeftOut, ...]


def rank_partners(  # noqa: PLR0913 - two animals' facts, two measures, the day and the wish
    asking: Candidate,
    others: Sequence[Candidate],
    kinship: NDArray[np.float64],
    mean_kinship: NDArray[np.float64],
    *,
    today: date,
    overridden: frozenset[str] = NOBODY,
    limit: float = 1.0,
) -> RankedPartners:
    """Rank the partners of an animal by kinship, then mean kinship, then tag.

    The asking animal's own reasons (`why_not`) are not looked at: she may be asked about
    before she is free.

    Parameters
    ----------
    asking
        The animal a partner is sought for.
    others
        The m animals to judge; the asking animal may be among them and is passed over.
    kinship
        Kinship of each with the asking animal, shape (m,); expected, where a sire is in doubt.
    mean_kinship
        Mean kinship of each with the living colony, shape (m,) (Ballou & Lacy 1995).
    today
        The day of the pairing.
    overridden
        Rules not to be held against anybody, by name.
    limit
        The greatest kinship of two that are paired.
    """
    ranked, left_out = [], []
    for other, related, average in zip(
        others, kinship.tolist(), mean_kinship.tolist(), strict=True
    ):
        if other.tag == asking.tag:
            continue
        reasons = why_not(other, today, overridden) + why_not_together(asking, other, overridden)
        near = too_related(related, limit)
        ignored = near and is_overridden(near, (asking.tag, other.tag), overridden)
        kin = (near,) if near else ()
        if reasons or (near and not ignored):
            left_out.append(LeftOut(other.tag, reasons + (() if ignored else kin)))
        else:
            aside = set_aside(asking, other, today, overridden) + kin
            ranked.append(Partner(other.tag, related, related, average, aside))
    # What differs only by rounding is taken as equal.
    ranked.sort(key=lambda p: (round(p.kinship, 12), round(p.mean_kinship, 12), p.tag))
    return RankedPartners(tuple(ranked), tuple(sorted(left_out, key=lambda animal: animal.tag)))
