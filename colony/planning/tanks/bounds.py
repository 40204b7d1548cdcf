"""What can be proved of a week without solving it: moves that must be, space that is not.

These bounds are what a plan is measured by; the gap is between it and them.
"""

from collections.abc import Iterable
from itertools import groupby

import numpy as np

from colony.planning.tanks.week import SLACK, Array, HouseWeek, Index


def fewest_leaving(scene: HouseWeek, tank: int) -> int:
    """Fewest residents that must leave a tank, wherever they go.

    Those it is closed to leave in any case, and so do those too unlike a pinned one. Of the
    others, the tank keeps most when it keeps the smallest discs, within one span of sizes;
    that is exact for strangers, and for litter-mates and pinned animals it never says too many.
    """
    residents = scene.residents(tank)
    staying = _beside_pinned(scene, residents[~scene.closed(tank, residents)])
    kept = max((_most_kept(scene, tank, span) for span in _spans(scene, staying)), default=0)
    return len(residents) - kept


def kept_rows(scene: HouseWeek, tank: int, rows: Index) -> Index:
    """Choose as many animals as a tank can keep: the pinned, then the smallest that fit.

    When one litter can make all the room that is needed, it is that litter which leaves.
    """
    open_rows = rows[~scene.closed(tank, rows)]
    kept = max(
        (_grown(scene, tank, span) for span in _around_pinned(scene, open_rows)),
        key=len,
        default=rows[:0],
    )
    together = _one_litter_out(scene, tank, open_rows, len(open_rows) - len(kept))
    return kept if together is None else together


def fewest_sold(scene: HouseWeek) -> int:
    """Fewest animals that must leave the house, by floor alone.

    Animals are grouped by the tanks they could be in; a group whose discs are more than all
    the floor open to it must lose its largest ones.
    """
    open_to = scene.may_go.copy()
    rows = np.arange(len(scene.swimmers))
    open_to[rows, scene.home] = ~scene.must_go
    kinds, kind = np.unique(open_to, axis=0, return_inverse=True)
    fewest = 0
    for tanks in kinds:
        group = np.flatnonzero((kinds <= tanks).all(axis=1)[kind])
        room = float(scene.capacity_mm2[tanks].sum()) * (1 + SLACK)
        fewest = max(fewest, _most_over(scene.disc_mm2[group], room))
    return fewest


def _spans(scene: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield the largest sets of residents that could stay together by size."""
    if _simple(scene, rows):
        yield from _starts(scene, rows)
    else:
        yield rows


def _simple(scene: HouseWeek, rows: Index) -> bool:
    """Tell whether nobody is pinned and no two are kin: then a span decides."""
    return not scene.pinned[rows].any() and len(np.unique(scene.kin[rows])) == len(rows)


def _starts(scene: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield, for each animal, those not smaller that it does not clash with."""
    if scene.alike(rows):
        yield rows
        return
    for one in rows.tolist():
        not_smaller = rows[scene.small_mm[rows] >= scene.small_mm[one]]
        yield not_smaller[~scene.clash(one, not_smaller)]


def _around_pinned(scene: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield the pinned animals with each set of others that may be beside all of them."""
    beside = _beside_pinned(scene, rows)
    pinned = scene.pinned[beside]
    for span in _starts(scene, beside[~pinned]):
        yield np.concatenate([beside[pinned], span])


def _beside_pinned(scene: HouseWeek, rows: Index) -> Index:
    """Take the pinned animals, and the others that may be beside all of them."""
    for one in rows[scene.pinned[rows]].tolist():
        rows = rows[scene.pinned[rows] | ~scene.clash(one, rows)]
    return rows


def _grown(scene: HouseWeek, tank: int, span: Index) -> Index:
    """Add animals one by one, the pinned and then the smallest first, while the tank holds."""
    order = span[np.lexsort((scene.disc_mm2[span], ~scene.pinned[span]))]
    if scene.alike(order):
        discs = np.cumsum(scene.disc_mm2[order])
        return order[: np.searchsorted(discs, scene.capacity_mm2[tank] * (1 + SLACK), "right")]
    kept = order[:0]
    for row in order:
        more = np.append(kept, row)
        if scene.holds(tank, more):
            kept = more
    return kept


def _one_litter_out(scene: HouseWeek, tank: int, rows: Index, leaving: int) -> Index | None:
    """Find a litter of which `leaving` pups make room enough; a whole one before a part."""
    if not leaving:
        return None
    movable = sorted(
        (r for r in rows.tolist() if scene.swimmers[r].litter and not scene.pinned[r]),
        key=lambda r: (scene.swimmers[r].litter, -scene.disc_mm2[r]),
    )
    litters = [list(group) for _, group in groupby(movable, lambda r: scene.swimmers[r].litter)]
    for litter in sorted((g for g in litters if len(g) >= leaving), key=len):
        kept = np.setdiff1d(rows, litter[:leaving])
        if scene.holds(tank, kept):
            return kept
    return None


def _most_kept(scene: HouseWeek, tank: int, rows: Index) -> int:
    total = np.cumsum(np.sort(scene.disc_mm2[rows]))
    room = float(scene.capacity_mm2[tank]) * (1 + SLACK)
    return int(np.searchsorted(total, room, side="right"))


def _most_over(discs_mm2: Array, room: float) -> int:
    total = np.cumsum(np.sort(discs_mm2))
    return len(total) - int(np.searchsorted(total, room, side="right"))
