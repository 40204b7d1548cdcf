"""What a plan says: pairs, groups, moves, who is left out and why, and how good it is."""

from dataclasses import dataclass

from colony.planning.pairings.eligibility import Bar
from colony.planning.pairings.partners import LeftOut


@dataclass(frozen=True)
class PlannedPair:
    """A dam and her sire; `reasons` hold against them but were overridden, such as a cross."""

    dam: str
    sire: str
    expected_inbreeding: float
    worst_inbreeding: float
    tank: str | None = None
    reasons: tuple[Bar, ...] = ()


@dataclass(frozen=True)
class Group:
    """One male, his females of the plan, and their tank where tanks were offered."""

    sire: str
    dams: tuple[str, ...]
    tank: str | None = None


@dataclass(frozen=True)
class PairingMove:
    """An animal to carry: to a tank, or (None) to any other tank, to make room."""

    tag: str
    from_tank: str | None
    to_tank: str | None


@dataclass(frozen=True)
class ProposedPlan:
    """The pairings proposed; nothing is changed by it.

    `objective` is what was minimised (`pairing_objective`): mean F, at its worst if so asked,
    plus weighted mean kinship of the next generation. A better plan could be lower by the
    share `gap` at most; `optimal` says that this is within the proof asked for, and that no
    plan has more litters. `notes` answer what was asked for and cannot be.
    """

    pairs: tuple[PlannedPair, ...] = ()
    groups: tuple[Group, ...] = ()
    moves: tuple[PairingMove, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    mean_expected_inbreeding: float = 0.0
    next_mean_kinship: float = 0.0
    objective: float = 0.0
    optimal: bool = True
    gap: float = 0.0
    notes: tuple[str, ...] = ()

    @property
    def next_gene_diversity(self) -> float:
        """Gene diversity of the next generation, 1 less its mean kinship (Lacy 1995)."""
        return 1 - self.next_mean_kinship
