"""Partners of one animal, best first."""

from dataclasses import replace
from datetime import date

import numpy as np

from colony.planning.pairings.eligibility import NOBODY, Candidate
from colony.planning.pairings.partners import RankedPartners, rank_partners

TODAY = date(2024, 6, 1)
DAM = Candidate("Alma", "F", species="leopoldi", mature_seen=True)
MALE = Candidate("", "M", species="leopoldi", mature_seen=True)
MALES = [replace(MALE, tag=tag) for tag in ("Bruno", "Carlos", "Dario", "Emil")]


def ranked(
    others: list[Candidate],
    kinship: list[float],
    mean_kinship: list[float],
    overridden: frozenset[str] = NOBODY,
) -> RankedPartners:
    """Rank partners for Alma."""
    return rank_partners(
        DAM,
        others,
        np.array(kinship),
        np.array(mean_kinship),
        today=TODAY,
        overridden=overridden,
    )


def test_the_least_related_come_first() -> None:
    """Kinship decides, then mean kinship, then the tag; rounding noise decides nothing."""
    found = ranked(MALES, [0.125, 0.1 + 0.025, 0.0, 0.125], [0.2, 0.2, 0.3, 0.1])
    assert [one.tag for one in found.ranked] == ["Dario", "Emil", "Bruno", "Carlos"]
    assert found.left_out == ()


def test_expected_inbreeding_is_the_kinship_of_the_parents() -> None:
    """A pup of full sibs has F 0.25 (Wright 1922), the kinship of full sibs."""
    (partner,) = ranked(MALES[:1], [0.25], [0.1]).ranked
    assert (partner.kinship, partner.expected_inbreeding) == (0.25, 0.25)


def test_nobody_is_lost() -> None:
    """Every other animal is either ranked or left out with its reasons; the asking is neither."""
    others = [
        DAM,
        MALES[0],
        replace(MALES[1], held="bite", species="motoro"),
        replace(MALES[2], sex="F"),
    ]
    found = ranked(others, [0.5, 0.0, 0.0, 0.0], [0.1, 0.1, 0.1, 0.1])
    assert [one.tag for one in found.ranked] == ["Bruno"]
    assert [(one.tag, [r.name for r in one.reasons]) for one in found.left_out] == [
        ("Carlos", ["hold", "species"]),
        ("Dario", ["same_sex"]),
    ]


def test_a_cross_asked_for_is_named() -> None:
    """An overridden rule lets a partner in and is told beside it."""
    found = ranked([replace(MALES[0], species="motoro")], [0.0], [0.1], frozenset({"species"}))
    assert [reason.name for reason in found.ranked[0].reasons] == ["species"]
