"""How the lines between parents and pups run: in columns across, and in lanes down each gap."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import inf

from colony.papers.chart.members import Family
from colony.papers.chart.places import Places

ASIDE = (0.2, 0.31, 0.42)
"""How far beside its symbol a line may go down, in columns, so that it covers no other line."""

FINER = (0.24, 0.275, 0.35, 0.385, 0.455, 0.49, 0.525, 0.56, 0.6)
"""Ways between those, and a little farther, up to the neighbour's symbol."""

SYMBOL_COLUMNS = 0.38
"""Half of a symbol with some air, in columns as narrow as they get."""


@dataclass(frozen=True)
class Drop:
    """A line down from a parent, at a column, to where the parents of a family are joined."""

    parent: int
    column: float
    share: float | None


@dataclass(frozen=True)
class Route:
    """How one family is drawn.

    Attributes
    ----------
    drops
        Lines down from parents that do not stand side by side; else empty.
    joint
        Column at which the line down to the pups begins.
    joint_lane, pup_lane
        Lanes of the level lines that join the parents and the pups; None where none is needed.
    gap
        The gap they run in: that below this row.
    """

    family: Family
    drops: tuple[Drop, ...]
    joint: float
    joint_lane: int | None
    pup_lane: int | None
    gap: int


class Lanes:
    """Level lines of each gap, in as few lanes as keep them from touching."""

    def __init__(self) -> None:
        self.occupied: defaultdict[int, list[list[tuple[float, float]]]] = defaultdict(list)

    def take(self, gap: int, columns: Iterable[float], lowest: int = 0) -> int | None:
        """Find a lane for a line over some columns, not above `lowest`; None for no width."""
        left, right = min(columns := list(columns)), max(columns)
        if right - left < 1e-6:  # noqa: PLR2004 - the same column but for rounding
            return None
        lanes = self.occupied[gap]
        for lane in range(lowest, len(lanes) + lowest + 1):
            while len(lanes) <= lane:
                lanes.append([])
            if all(right + 0.1 < begin or end + 0.1 < left for begin, end in lanes[lane]):
                lanes[lane].append((left, right))
                return lane
        raise AssertionError  # pragma: no cover - the last lane is empty

    def count(self, gap: int) -> int:
        """How many lanes a gap has."""
        return len(self.occupied[gap])


def route_families(families: tuple[Family, ...], places: Places) -> tuple[tuple[Route, ...], Lanes]:
    """Find a way for each family; those side by side, without a bend, first."""
    lanes = Lanes()
    drop_at = _FreeColumns(families, places)
    ordered = sorted(families, key=lambda family: not stand_side_by_side(family, places))
    routes = tuple(_route(family, places, lanes, drop_at) for family in ordered)
    return routes, lanes


def stand_side_by_side(family: Family, places: Places) -> bool:
    """Whether a certain pair stands together right above its pups."""
    if family.doubtful or len(family.parents) != 2:  # noqa: PLR2004 - a pair
        return False
    left, right = family.parents
    lowest = places.row[left] + 1 == min(places.row[pup] for pup in family.pups)
    return lowest and places.are_side_by_side(left, right)


def _route(
    family: Family, places: Places, lanes: Lanes, drop_at: Callable[[int, int, float], float]
) -> Route:
    pups = [places.column[pup] for pup in family.pups]
    gap = min(places.row[pup] for pup in family.pups) - 1
    if stand_side_by_side(family, places):
        joint = sum(places.column[parent] for parent in family.parents) / 2
        return Route(family, (), joint, None, lanes.take(gap, [joint, *pups]), gap)
    share_of = dict(family.sires) if family.doubtful else {}
    middle = (min(pups) + max(pups)) / 2
    drops = tuple(
        Drop(parent, drop_at(parent, gap, middle), share_of.get(parent))
        for parent in family.parents
    )
    joint = drops[0].column if len(drops) == 1 else middle
    joint_lane = lanes.take(gap, [joint, *(drop.column for drop in drops)])
    below = 0 if joint_lane is None else joint_lane + 1
    return Route(family, drops, joint, joint_lane, lanes.take(gap, [joint, *pups], below), gap)


class _FreeColumns:
    """Columns at which lines may go down past the symbols of the rows between."""

    def __init__(self, families: tuple[Family, ...], places: Places) -> None:
        self.places = places
        self.families_of = Counter(parent for family in families for parent in family.parents)
        self.used: set[tuple[int, float]] = set()

    def __call__(self, parent: int, gap: int, towards: float) -> float:
        """Find one: straight down for an only family, else beside the symbol, to the nearer side."""
        own = self.places.column[parent]
        side = 1 if towards >= own else -1
        asides = [side * aside for aside in ASIDE] + [-side * aside for aside in ASIDE]
        if self.families_of[parent] == 1:
            asides.insert(0, 0.0)
        # A parent of many families runs out of them: then the finer ways between, nearest first.
        asides += [sign * aside for aside in FINER for sign in (side, -side)]
        ways = [own + aside for aside in asides if (parent, own + aside) not in self.used]
        free = [way for way in ways if self._air(parent, way, gap) > SYMBOL_COLUMNS]
        # Where the symbols stand too close for any, the way with the most air on both sides.
        column = (
            free[0] if free else max(ways or [own], key=lambda way: self._air(parent, way, gap))
        )
        self.used.add((parent, column))
        return column

    def _air(self, parent: int, column: float, gap: int) -> float:
        """How far a way down passes by the nearest symbol of the rows between, in columns."""
        row = self.places.row[parent]
        between = (
            self.places.column[animal] for animal, at in self.places.row.items() if row < at <= gap
        )
        return min((abs(column - other) for other in between), default=inf)
