"""A proposed plan as one document for scripts; `docs/pairing.md` names its keys."""

from collections.abc import Iterable, Sequence
from typing import Any

from colony.acts.pairings.accept_plan import Accepted
from colony.acts.pairings.plan import Proposed
from colony.planning.pairings.comparison import Comparison
from colony.planning.pairings.eligibility import Bar
from colony.planning.pairings.plan import PlannedPair


def plan_document(proposed: Proposed, accepted: Accepted | None = None) -> dict[str, Any]:
    """Put a plan into one document: pairs, figures, groups, moves, and who is left out."""
    plan = proposed.plan
    return {
        "pairs": _pairs(plan.pairs),
        "mean_expected_inbreeding": plan.mean_expected_inbreeding,
        "next_mean_kinship": plan.next_mean_kinship,
        "next_gene_diversity": plan.next_gene_diversity,
        "objective": plan.objective,
        "optimal": plan.optimal,
        "gap": plan.gap,
        "groups": plan.groups,
        "moves": plan.moves,
        "notes": plan.notes,
        "unknown_kin": proposed.unknown_kin,
        "left_out": [
            {"tag": animal.tag, "reasons": _sentences(animal.reasons)} for animal in plan.left_out
        ],
        "comparison": _comparison(proposed.comparison) if proposed.comparison else None,
        "futures": [
            {
                "way": future.way,
                "generations": [
                    vars(ahead) | {"gene_diversity": ahead.gene_diversity} for ahead in future.ahead
                ],
            }
            for future in proposed.futures
        ],
        "accepted": accepted,
    }


def _sentences(reasons: Sequence[Bar]) -> list[str]:
    return [f"{reason.name}: {reason.text}" for reason in reasons]


def _pairs(pairs: Iterable[PlannedPair]) -> list[dict[str, Any]]:
    return [vars(pair) | {"reasons": _sentences(pair.reasons)} for pair in pairs]


def _comparison(comparison: Comparison) -> dict[str, Any]:
    return {
        "in_both": _pairs(comparison.in_both),
        "only_without": _pairs(comparison.only_first),
        "only_with": _pairs(comparison.only_second),
        "figures": {
            measure.name: {
                "without": measure.first,
                "with": measure.second,
                "difference": measure.difference,
            }
            for measure in comparison.measures
        },
    }
