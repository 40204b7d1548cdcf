"""The reserve of ready water: so many litres, filled up by so many a night."""

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Reserve:
    """A store of water in whole litres, as it stands on the first morning.

    What the night brings beyond the capacity is lost.
    """

    capacity_l: int
    refill_l: int
    level_l: int


class ReserveBalance:
    """What is drawn from a reserve on each of some days, and what may still be drawn."""

    def __init__(self, reserve: Reserve, days: int) -> None:
        self.reserve = reserve
        self.drawn_l = [0] * days

    def copy(self) -> "ReserveBalance":
        """A balance to try something in."""
        twin = ReserveBalance(self.reserve, len(self.drawn_l))
        twin.drawn_l = list(self.drawn_l)
        return twin

    def draw(self, day: int, litres: int) -> None:
        """Draw on a day; negative puts back what was drawn."""
        self.drawn_l[day] += litres

    def levels(self) -> list[int]:
        """Litres in the reserve each morning."""
        return levels(self.reserve, self.drawn_l)

    def room(self, day: int) -> int:
        """The most that can be drawn on a day besides, leaving enough for every later draw."""
        return max(0, self.levels()[day] - self._kept_for_draws(day))

    def _kept_for_draws(self, day: int) -> int:
        """The least a morning must begin with so that no draw of that day or later fails."""
        kept = 0
        for drawn in reversed(self.drawn_l[day:]):
            kept = drawn + max(0, kept - self.reserve.refill_l)
        return kept


def levels(reserve: Reserve, drawn_l: Sequence[int]) -> list[int]:
    """Litres each morning, given what is drawn each day; below nothing where it is overdrawn."""
    found, level = [], reserve.level_l
    for drawn in drawn_l:
        found.append(level)
        level = min(reserve.capacity_l, level - drawn + reserve.refill_l)
    return found
