"""Two plans side by side."""

from dataclasses import dataclass

from colony.planning.pairings.plan import PlannedPair, ProposedPlan


@dataclass(frozen=True)
class Measure:
    """One figure of two plans, and what the second adds to the first."""

    name: str
    first: float
    second: float

    @property
    def difference(self) -> float:
        """The second less the first."""
        return self.second - self.first


@dataclass(frozen=True)
class Comparison:
    """What two plans share, what only one of them has, and their figures."""

    in_both: tuple[PlannedPair, ...]
    only_first: tuple[PlannedPair, ...]
    only_second: tuple[PlannedPair, ...]
    measures: tuple[Measure, ...]


def compare_plans(first: ProposedPlan, second: ProposedPlan) -> Comparison:
    """Put two plans side by side, pair by pair and figure by figure."""
    theirs = ({(p.dam, p.sire) for p in plan.pairs} for plan in (first, second))
    of_first, of_second = theirs
    return Comparison(
        in_both=tuple(p for p in first.pairs if (p.dam, p.sire) in of_second),
        only_first=tuple(p for p in first.pairs if (p.dam, p.sire) not in of_second),
        only_second=tuple(p for p in second.pairs if (p.dam, p.sire) not in of_first),
        measures=tuple(
            Measure(name, value, other)
            for (name, value), (_, other) in zip(_figures(first), _figures(second), strict=True)
        ),
    )


def _figures(plan: ProposedPlan) -> list[tuple[str, float]]:
    greatest = max((pair.expected_inbreeding for pair in plan.pairs), default=0.0)
    return [
        ("litters", len(plan.pairs)),
        ("mean_expected_inbreeding", plan.mean_expected_inbreeding),
        ("greatest_expected_inbreeding", greatest),
        ("next_mean_kinship", plan.next_mean_kinship),
        ("next_gene_diversity", plan.next_gene_diversity),
        ("objective", plan.objective),
        ("moves", len(plan.moves)),
    ]
