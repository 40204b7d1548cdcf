"""Why each animal that a plan does not use is not in it."""

from collections.abc import Iterator

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.pairings.eligibility import Bar
from colony.planning.pairings.open_pairs import (
    APART,
    NO_TANK,
    OPEN,
    RULED_OUT,
    TOO_RELATED,
    Codes,
    OpenPairs,
)
from colony.planning.pairings.partners import LeftOut

BARRED = {
    RULED_OUT: "of another species or line",
    TOO_RELATED: "too related",
    APART: "kept apart as asked",
    NO_TANK: "without a tank for both",
}
MOST_NAMED = 4


def left_out(pairs: OpenPairs, chosen: Index) -> tuple[LeftOut, ...]:
    """Name everybody who is not in the plan, with all reasons, by tag."""
    alone = [LeftOut(tag, reasons) for tag, reasons in pairs.alone.items()]
    dam, sire = (numbers[chosen] for numbers in pairs.places)
    unused = [
        LeftOut(pairs.candidate(pairs.dams[n]).tag, (_why_no_dam(pairs, dam, sire, n),))
        for n in _others(len(pairs.dams), dam)
    ] + [
        LeftOut(pairs.candidate(pairs.sires[n]).tag, (_why_no_sire(pairs, n),))
        for n in _others(len(pairs.sires), sire)
    ]
    return tuple(sorted(alone + unused, key=lambda animal: animal.tag))


def _others(count: int, used: Index) -> list[int]:
    return sorted(set(range(count)) - set(used.tolist()))


def _why_no_dam(pairs: OpenPairs, dam: Index, sire: Index, number: int) -> Bar:
    bar = pairs.bar[number]
    if not (bar == OPEN).any():
        return _no_partner(bar, pairs.f[number], "male")
    if pairs.request.litters is not None and len(dam) >= pairs.request.litters:
        return _no_place(f"the {len(dam)} litters asked for are those of others")
    animal = pairs.candidate(pairs.dams[number])
    for name, count in pairs.request.wanted.items():
        planned = sum(name in _names(pairs, other) for other in dam.tolist())
        if name in {animal.species, animal.line} and planned >= count:
            return _no_place(f"the {count} litters of {name} asked for are those of others")
    served = np.bincount(sire, minlength=len(pairs.sires))
    suits = np.flatnonzero(bar == OPEN)
    males = ", ".join(pairs.candidate(pairs.sires[n]).tag for n in suits[:MOST_NAMED])
    if len(suits) > MOST_NAMED:
        males += f" and {len(suits) - MOST_NAMED} more"
    if (served[suits] >= pairs.capacity[suits]).all():
        return _no_place(f"the males open to her serve others: {males}")
    return _no_place(f"no tank has room for her beside a male open to her: {males}")


def _names(pairs: OpenPairs, dam: int) -> set[str | None]:
    animal = pairs.candidate(pairs.dams[dam])
    return {animal.species, animal.line}


def _why_no_sire(pairs: OpenPairs, number: int) -> Bar:
    bar, f = pairs.bar[:, number], pairs.f[:, number]
    if not (bar == OPEN).any():
        return _no_partner(bar, f, "female")
    if not pairs.capacity[number]:
        return _no_place("he is to serve no more females")
    return _no_place(
        f"the females open to him do better with others (his least F is {f[bar == OPEN].min():.4f})"
    )


def _no_partner(bar: Codes, f: Floats, sex: str) -> Bar:
    if not len(bar):
        return Bar("partner", f"no {sex} may be paired")
    return Bar("partner", f"no {sex} for it: {', '.join(_counts(bar, f))}")


def _counts(bar: Codes, f: Floats) -> Iterator[str]:
    for code, words in BARRED.items():
        count = int((bar == code).sum())
        least = f" (least F {f[bar == code].min():.4f})" if count and code == TOO_RELATED else ""
        if count:
            yield f"{count} {words}{least}"


def _no_place(why: str) -> Bar:
    return Bar("place", f"eligible, but the plan had no place: {why}")
