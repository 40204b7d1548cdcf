"""A nursery for every litter that is due, and who would have to share one."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import combinations

from colony.planning.litters.due_window import DueWindow

STAY_DAYS = 42
"""How long pups stay in their nursery; common practice, no source."""


@dataclass(frozen=True)
class Nursery:
    """A nursery tank, from when it can take a litter, and what has to happen before."""

    code: str
    free_from: date = date.min
    waits_for: str = ""


@dataclass(frozen=True)
class NurseryNeed:
    """A litter that is due; `own` is the nursery its dam is in already, if she is in one."""

    dam: str
    window: DueWindow
    own: str = ""


@dataclass(frozen=True)
class NurseryClaim:
    """The nursery a litter is to be born or brought into."""

    dam: str
    nursery: str
    window: DueWindow


@dataclass(frozen=True)
class NurseryConflict:
    """Litters that may need one nursery on the same days, or before it is free: one dam or two."""

    nursery: str
    dams: tuple[str, ...]
    begins: date
    ends: date
    sentence: str


def allot_nurseries(
    needs: Iterable[NurseryNeed], nurseries: Sequence[Nursery], *, stay_days: int = STAY_DAYS
) -> tuple[NurseryClaim, ...]:
    """Give every litter a nursery, the earliest need first.

    A litter whose dam is in a nursery keeps it. Of those free in time the one that has been
    free longest is taken, else the one that will be free first; ties go by the order given.
    """
    free_from = {nursery.code: nursery.free_from for nursery in nurseries}
    stay = timedelta(days=stay_days)
    claims = []
    for need in sorted(needs, key=lambda need: (not need.own, need.window.earliest, need.dam)):
        code = need.own or min(free_from, key=free_from.__getitem__, default="")
        if code:
            claims.append(NurseryClaim(need.dam, code, need.window))
            free_from[code] = max(free_from.get(code, date.min), need.window.latest + stay)
    return tuple(claims)


def nursery_conflicts(
    claims: Iterable[NurseryClaim], *, stay_days: int = STAY_DAYS
) -> tuple[NurseryConflict, ...]:
    """Warn of every two litters whose days in one nursery may overlap.

    A litter needs its nursery from the earliest date of birth until `stay_days` after the
    latest.
    """
    ordered = sorted(claims, key=lambda c: (c.window.earliest, c.dam))
    pairs = ((a, b) for a, b in combinations(ordered, 2) if a.nursery == b.nursery)
    found = (_conflict(a, b, timedelta(days=stay_days)) for a, b in pairs)
    return tuple(conflict for conflict in found if conflict)


def not_free_in_time(
    claims: Iterable[NurseryClaim], nurseries: Iterable[Nursery]
) -> tuple[NurseryConflict, ...]:
    """Warn of every litter that may come before its nursery can take it."""
    by_code = {nursery.code: nursery for nursery in nurseries}
    late = ((claim, by_code[claim.nursery]) for claim in claims if claim.nursery in by_code)
    return tuple(
        _too_early(claim, nursery)
        for claim, nursery in late
        if nursery.free_from > claim.window.earliest
    )


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


def _too_early(claim: NurseryClaim, nursery: Nursery) -> NurseryConflict:
    begins, ends = claim.window.earliest, nursery.free_from
    before = "" if ends == date.max else f" before {ends}"
    sentence = (
        f"{nursery.code} is not free{before} ({nursery.waits_for}); the litter of {claim.dam} may "
        f"come from {begins}"
    )
    return NurseryConflict(nursery.code, (claim.dam,), begins, ends, sentence)
