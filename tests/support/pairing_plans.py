"""Plans of invented colonies, asked for in one line."""

from dataclasses import replace
from typing import Any

from plain_colonies import TODAY

from colony.planning.pairings.plan import ProposedPlan
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, PairingRequest, Stock


def changed(colony: Stock, **facts: dict[str, Any]) -> Stock:
    """Change facts of some animals, by tag."""
    animals = tuple(replace(animal, **facts.get(animal.tag, {})) for animal in colony.animals)
    return replace(colony, animals=animals)


def everybody(colony: Stock, **facts: object) -> Stock:
    """Change facts of all animals."""
    return replace(colony, animals=tuple(replace(animal, **facts) for animal in colony.animals))  # type: ignore[arg-type] # facts by name


def plan_of(colony: Stock, *tanks: BreedingTank, **request: Any) -> ProposedPlan:  # noqa: ANN401 - any wish
    """Plan with these request and tanks."""
    return plan_pairings(colony, PairingRequest(**request), tanks, today=TODAY)


def reasons(plan: ProposedPlan) -> dict[str, list[str]]:
    """Read the reasons of each animal left out, as ``rule: why``."""
    return {one.tag: [f"{r.name}: {r.text}" for r in one.reasons] for one in plan.left_out}


def pairs(plan: ProposedPlan) -> set[tuple[str, str]]:
    """Read the pairs of a plan by tag."""
    return {(pair.dam, pair.sire) for pair in plan.pairs}
