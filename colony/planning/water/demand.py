"""What wants water from the reserve, and the litres laid for it; day 0 is today."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Urgent:
    """A change that begins today: so many litres, at most so many a day; rank 1 goes first.

    What is not laid by `last_day` (0 is today; None: the last of the plan) is not laid at all.
    """

    system: str
    litres: int
    most_l_a_day: int
    rank: int
    why: str = ""
    last_day: int | None = None

    def wanted_by(self, day: int) -> int:
        """Litres that full speed would have laid by the end of a day."""
        return min(self.litres, self.most_l_a_day * (day + 1))

    def days(self, planned: int) -> range:
        """The days on which it may be laid."""
        return range(planned if self.last_day is None else min(planned, self.last_day + 1))


@dataclass(frozen=True)
class Routine:
    """One ordinary change of so many litres, on one day of a window (0 is today)."""

    system: str
    litres: int
    first_day: int
    last_day: int
    due_day: int


@dataclass(frozen=True)
class Draw:
    """Litres laid for a system on a day; `part` where a routine change had to be split."""

    day: int
    system: str
    litres: int
    urgent: bool
    why: str = ""
    part: bool = False


@dataclass(frozen=True)
class Demand:
    """Everything that wants water: litres that drip each day, urgent and routine changes."""

    drip_l_a_day: int
    urgent: tuple[Urgent, ...]
    routine: tuple[Routine, ...]

    @property
    def changes(self) -> tuple[Urgent | Routine, ...]:
        """Every change, urgent or not."""
        return (*self.urgent, *self.routine)
