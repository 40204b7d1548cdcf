"""What a pairing plan is made from: the stock, the tanks offered, and what the breeder request."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from colony.planning.arrays import Floats
from colony.planning.pairings.eligibility import NOBODY, Candidate

Pair = tuple[str, str]
"""A dam and a sire, by tag."""


@dataclass(frozen=True, eq=False)
class Stock:
    """The n animals that a plan may use or must leave out.

    `kinship` is their kinship with each other, shape (n, n), each animal's own with itself
    on the diagonal; expected, where a sire is in doubt. `worst_kinship` (n, n) is the
    greatest that doubt allows; `rare` (n,) the share of each animal's genes that comes from
    under-represented founders (`rare_share`). `homes` are the tanks they are in today.
    """

    animals: tuple[Candidate, ...]
    kinship: Floats
    homes: tuple[str | None, ...] = ()
    worst_kinship: Floats | None = None
    rare: Floats | None = None

    def home(self, row: int) -> str | None:
        """Name the tank an animal is in, if that is known."""
        return self.homes[row] if self.homes else None


@dataclass(frozen=True)
class BreedingTank:
    """A tank that may hold one male and his females.

    `room_mm2` is the sum of disc areas that it may hold, once those who stay in it are
    counted; `widest_mm` the greatest disc width that its sides allow.
    """

    code: str
    room_mm2: float
    widest_mm: float = float("inf")


@dataclass(frozen=True)
class PairingRequest:
    """What the breeder asks of a plan; made once, by a face, and handed on whole.

    `litters` is how many in all (as many as can be, if None); `wanted` how many of a species
    or a line, by its name. `most_females` is a male's capacity where he has none of his own;
    `group_size` the most females of one tank. `weight` is what the mean kinship of the next
    generation counts against the inbreeding of the pups; `founder_weight` the same for the
    genes of under-represented founders. `highest_inbreeding` is the limit for a litter's F.
    `at_worst` says whether a doubtful sire counts at its worst, for F and its limit, or as
    expected. `overridden` names rules not to be held against anybody. `species` is the only
    one to be paired (None: all), `use_tanks` whether groups must fit the breeding tanks, and
    `seconds` how long to try.
    """

    litters: int | None = None
    wanted: Mapping[str, int] = field(default_factory=dict)
    most_females: int = 4
    group_size: int | None = None
    weight: float = 1.0
    founder_weight: float = 0.0
    highest_inbreeding: float | None = None
    at_worst: bool = False
    required_pairs: frozenset[Pair] = frozenset()
    forbidden_pairs: frozenset[Pair] = frozenset()
    excluded: frozenset[str] = NOBODY
    overridden: frozenset[str] = NOBODY
    species: str | None = None
    use_tanks: bool = False
    seconds: float = 60.0

    @property
    def baseline(self) -> "PairingRequest":
        """The same without its what-if: no pair required or forbidden, nobody excluded."""
        return replace(
            self, required_pairs=frozenset(), forbidden_pairs=frozenset(), excluded=NOBODY
        )


def _never() -> bool:
    return False


def _untold(_gap: float) -> None:
    return None


@dataclass(frozen=True)
class Watch:
    """Who watches a search: whether it was told to stop, and what is told of its gap so far."""

    stopped: Callable[[], bool] = _never
    tell: Callable[[float], None] = _untold


UNWATCHED = Watch()


@dataclass(frozen=True)
class Effort:
    """How hard to try before the best plan found so far is taken.

    `seconds` bounds the work by the `clock`, a reading of seconds (each step of the work by
    itself, without one), and `nodes` each search. The search goes on until the gap is
    `enough`; then closing it further is tried for `polish` nodes times unknowns: wholly on a
    small colony, hardly on a large one. A gap of up to `proof` counts as optimal, which is
    what HiGHS itself calls so. Who `watch`es may stop it: the best found so far is taken.
    """

    seconds: float = 30.0
    enough: float = 3e-4
    proof: float = 1e-4
    nodes: int = 2_000
    polish: int = 25_000
    clock: Callable[[], float] = float
    watch: Watch = UNWATCHED


DEFAULT_EFFORT = Effort()
LEAST_SECONDS = 1e-3


class Deadline:
    """The seconds that are left of an effort."""

    def __init__(self, effort: Effort) -> None:
        self._effort, self.watch = effort, effort.watch
        self._began = effort.clock()

    def left(self) -> float:
        """Count the seconds left, never less than a solver takes for a limit."""
        if self.watch.stopped():
            return LEAST_SECONDS
        return max(self._effort.seconds - (self._effort.clock() - self._began), LEAST_SECONDS)

    @property
    def stopped(self) -> Callable[[], bool] | None:
        """What a solver asks whether it was stopped; None where nobody watches."""
        return None if self.watch.stopped is _never else self.watch.stopped

    def is_over(self) -> bool:
        """Tell whether the time is up."""
        return self.left() <= LEAST_SECONDS


def rare_share(contributions: Floats, colony: Floats) -> Floats:
    """Share of each animal's genes that comes from under-represented founders.

    A founder with a share p of the colony's genes, where f founders have equal shares 1/f,
    weighs max(0, 1 - f p): 1 when it is all but lost, 0 when it has its equal share or more.
    Equal founder shares as the aim: Lacy 1989, Zoo Biology 8:111-123; this weight is ours.

    Parameters
    ----------
    contributions
        Share of each founder in each animal, shape (n, f).
    colony
        Share of each founder in the living colony, shape (f,).
    """
    lack = np.maximum(0.0, 1.0 - len(colony) * colony)
    share: Floats = contributions @ lack
    return share
