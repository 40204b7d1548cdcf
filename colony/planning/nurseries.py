"""Which litters want the same nursery at the same time."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import combinations

from colony.planning.gestation import DueWindow


@dataclass(frozen=True)
class NurseryClaim:
    """The nursery a litter is to be born or brought into."""

    dam: str
    nursery: str
    window: DueWindow


@dataclass(frozen=True)
class NurseryConflict:
    """Two litters that may need one nursery on the same days."""

    nursery: str
    dams: tuple[str, str]
    begins: date
    ends: date
    sentence: str


def nursery_conflicts(
    claims: Iterable[NurseryClaim], *, stay_days: int = 42
) -> tuple[NurseryConflict, ...]:
    """Warn of every two litters whose days in one nursery may overlap.

    A litter needs its nursery from the earliest date of birth until `stay_days` after the
    latest; how long pups stay is common practice, no source.
    """
    ordered = sorted(claims, key=lambda c: (c.window.earliest, c.dam))
    pairs = ((a, b) for a, b in combinations(ordered, 2) if a.nursery == b.nursery)
    found = (_conflict(a, b, timedelta(days=stay_days)) for a, b in pairs)
    return tuple(conflict for conflict in found if conflict)


def _conflict(first: NurseryClaim, second: NurseryClaim, stay: timedelta) -> NurseryConflict | None:
    begins = second.window.earliest
    ends = min(first.window.latest, second.window.latest) + stay
    if begins > first.window.latest + stay:
        return None
    sentence = (
        f"{first.nursery} is wanted by the litters of {first.dam} and {second.dam}, both there "
        f"from {begins} to {ends} if the first is late and the second early"
    )
    return NurseryConflict(first.nursery, (first.dam, second.dam), begins, ends, sentence)
