"""What can be proved of a week without solving it: moves that must be, space that is not.

These bounds are what a plan is measured by; the gap is between it and them.
"""

from collections.abc import Iterable
from itertools import groupby

import numpy as np

from colony.planning.arrays import Floats, Index
from colony.planning.tanks.week import SLACK, HouseWeek


def fewest_leaving(week: HouseWeek, tank: int) -> int:
    """Fewest residents that must leave a tank, wherever they go.

    Those it is closed to leave in any case, and so do those too unlike a pinned one. Of the
    others, the tank keeps most when it keeps the smallest discs, within one span of sizes;
    that is exact for strangers, and for litter-mates and pinned animals it never says too many.
    """
    residents = week.residents(tank)
    staying = _beside_pinned(week, residents[~week.closed(tank, residents)])
    kept = max((_most_kept(week, tank, span) for span in _spans(week, staying)), default=0)
    return len(residents) - kept


def kept_rows(week: HouseWeek, tank: int, rows: Index) -> Index:
    """Choose as many animals as a tank can keep: the pinned, then the smallest that fit.

    When one litter can make all the room that is needed, it is that litter which leaves.
    """
    open_rows = rows[~week.closed(tank, rows)]
    kept = max(
        (_grown(week, tank, span) for span in _around_pinned(week, open_rows)),
        key=len,
        default=rows[:0],
    )
    together = _one_litter_out(week, tank, open_rows, len(open_rows) - len(kept))
    return kept if together is None else together


def fewest_sold(week: HouseWeek) -> int:
    """Fewest animals that must leave the house, by floor alone.

    Animals are grouped by the tanks they could be in; a group whose discs are more than all
    the floor open to it must lose its largest ones.
    """
    open_to = week.may_go.copy()
    rows = np.arange(len(week.swimmers))
    open_to[rows, week.home] = ~week.home_closed
    kinds, kind = np.unique(open_to, axis=0, return_inverse=True)
    fewest = 0
    for tanks in kinds:
        group = np.flatnonzero((kinds <= tanks).all(axis=1)[kind])
        room = float(week.capacity_mm2[tanks].sum()) * (1 + SLACK)
        fewest = max(fewest, _most_over(week.disc_mm2[group], room))
    return fewest


def _spans(week: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield the largest sets of residents that could stay together by size.

    Where nobody is pinned and no two are kin, a span decides.
    """
    if not week.pinned[rows].any() and len(np.unique(week.kin[rows])) == len(rows):
        yield from _starts(week, rows)
    else:
        yield rows


def _starts(week: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield, for each animal, those not smaller that it does not clash with."""
    if week.alike(rows):
        yield rows
        return
    for row in rows.tolist():
        not_smaller = rows[week.small_mm[rows] >= week.small_mm[row]]
        yield not_smaller[~week.clash(row, not_smaller)]


def _around_pinned(week: HouseWeek, rows: Index) -> Iterable[Index]:
    """Yield the pinned animals with each set of others that may be beside all of them."""
    beside = _beside_pinned(week, rows)
    pinned = week.pinned[beside]
    for span in _starts(week, beside[~pinned]):
        yield np.concatenate([beside[pinned], span])


def _beside_pinned(week: HouseWeek, rows: Index) -> Index:
    """Take the pinned animals, and the others that may be beside all of them."""
    for row in rows[week.pinned[rows]].tolist():
        rows = rows[week.pinned[rows] | ~week.clash(row, rows)]
    return rows


def _grown(week: HouseWeek, tank: int, span: Index) -> Index:
    """Add animals one by one, the pinned and then the smallest first, while the tank holds."""
    order = span[np.lexsort((week.disc_mm2[span], ~week.pinned[span]))]
    if week.alike(order):
        discs = np.cumsum(week.disc_mm2[order])
        return order[: np.searchsorted(discs, week.capacity_mm2[tank] * (1 + SLACK), "right")]
    kept = order[:0]
    for row in order:
        more = np.append(kept, row)
        if week.holds(tank, more):
            kept = more
    return kept


def _one_litter_out(week: HouseWeek, tank: int, rows: Index, leaving: int) -> Index | None:
    """Find a litter of which `leaving` pups make room enough; a whole one before a part."""
    if not leaving:
        return None
    movable = sorted(
        (r for r in rows.tolist() if week.swimmers[r].litter and not week.pinned[r]),
        key=lambda r: (week.swimmers[r].litter, -week.disc_mm2[r]),
    )
    litters = [list(group) for _, group in groupby(movable, lambda r: week.swimmers[r].litter)]
    for litter in sorted((g for g in litters if len(g) >= leaving), key=len):
        kept = np.setdiff1d(rows, litter[:leaving])
        if week.holds(tank, kept):
            return kept
    return None


def _most_kept(week: HouseWeek, tank: int, rows: Index) -> int:
    total = np.cumsum(np.sort(week.disc_mm2[rows]))
    room = float(week.capacity_mm2[tank]) * (1 + SLACK)
    return int(np.searchsorted(total, room, side="right"))


def _most_over(discs_mm2: Floats, room: float) -> int:
    total = np.cumsum(np.sort(discs_mm2))
    return len(total) - int(np.searchsorted(total, room, side="right"))
