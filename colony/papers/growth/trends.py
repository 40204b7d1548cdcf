"""A trend in time, drawn in plain characters: values as stars, limits as dashed lines."""

from collections.abc import Sequence
from datetime import date

HEIGHT, WIDTH = 9, 56
"""Rows and columns of the field; with its scale it stays within 80 columns."""

VALUE, LIMIT, NOTHING = "*", "-", " "


def draw_trend(
    points: Sequence[tuple[date, float]],
    *,
    low: float | None = None,
    high: float | None = None,
) -> list[str]:
    """Draw values over days, and their limits.

    Parameters
    ----------
    points
        Days and values, in order of day.

    Returns
    -------
    list of str
        Lines from top to bottom, the days below; empty where there is no value.
    """
    if not points:
        return []
    bounds = [bound for bound in (low, high) if bound is not None]
    values = [value for _, value in points]
    least, most = min(values + bounds), max(values + bounds)
    field = [[NOTHING] * WIDTH for _ in range(HEIGHT)]
    for bound in bounds:
        field[_row(bound, least, most)] = [LIMIT] * WIDTH
    first, last = points[0][0], points[-1][0]
    for day, value in points:
        field[_row(value, least, most)][_column(day, first, last)] = VALUE
    marked = {0: most, HEIGHT // 2: (least + most) / 2, HEIGHT - 1: least}
    scale = {at: f"{value:.4g}" for at, value in marked.items()}
    lines = [f"{scale.get(at, ''):>10} |{''.join(row)}" for at, row in enumerate(field)]
    gap = " " * (WIDTH - 2 * len(str(first)))
    return [line.rstrip() for line in lines] + [f"{'':>10}  {first}{gap}{last}"]


def _row(value: float, least: float, most: float) -> int:
    if most == least:
        return HEIGHT // 2
    return round((most - value) / (most - least) * (HEIGHT - 1))


def _column(day: date, first: date, last: date) -> int:
    if last == first:
        return 0
    return round((day - first).days / (last - first).days * (WIDTH - 1))
