"""The lines of a chart: between partners, down to pups, dashed where a sire is in doubt."""

from collections.abc import Iterator

from colony.papers.chart.drawing import Label, Stroke
from colony.papers.chart.frame import SYMBOL_MM, Frame
from colony.papers.chart.routes import Route

DOUBLE_MM = 0.7
SHARE_MM = 1.9
SHOULDER_MM = 1.6
"""How far below the line between partners another family's line leaves the symbol."""


def strokes(route: Route, frame: Frame) -> Iterator[Stroke]:
    """All lines of one family."""
    joint = frame.x(route.joint), _joint_y(route, frame)
    yield from _between_parents(route, frame, joint)
    pups_y = joint[1] if route.pup_lane is None else frame.lane(route.gap, route.pup_lane)
    yield Stroke(*joint, joint[0], pups_y)
    pups = [frame.of(pup) for pup in route.family.pups]
    if route.pup_lane is not None:
        ends = [joint[0], *(x for x, _ in pups)]
        yield Stroke(min(ends), pups_y, max(ends), pups_y)
    for x, y in pups:
        yield Stroke(x, pups_y, x, y)


def share_labels(route: Route, frame: Frame) -> Iterator[Label]:
    """The share of each possible sire, at the foot of his line."""
    for drop in route.drops:
        if drop.share is not None:
            y = _joint_y(route, frame) - 0.5
            yield Label(frame.x(drop.column), y, f"{drop.share:.0%}", SHARE_MM)


def _joint_y(route: Route, frame: Frame) -> float:
    if not route.drops:
        return frame.of(route.family.parents[0])[1]
    return frame.lane(route.gap, route.joint_lane or 0)


def _between_parents(route: Route, frame: Frame, joint: tuple[float, float]) -> Iterator[Stroke]:
    if not route.drops:
        (x1, y), (x2, _) = sorted(frame.of(parent) for parent in route.family.parents)
        for aside in _doubled(bool(route.family.related)):
            yield Stroke(x1 + SYMBOL_MM / 2, y + aside, x2 - SYMBOL_MM / 2, y + aside)
    for drop in route.drops:
        (own, y), x = frame.of(drop.parent), frame.x(drop.column)
        dashed = drop.share is not None
        if x != own:
            y += SHOULDER_MM
            yield Stroke(own, y, x, y, dashed)
        yield Stroke(x, y, x, joint[1], dashed)
        for aside in _doubled(drop.parent in route.family.related) if x != joint[0] else ():
            yield Stroke(x, joint[1] + aside, joint[0], joint[1] + aside, dashed)


def _doubled(related: bool) -> tuple[float, ...]:
    return (-DOUBLE_MM / 2, DOUBLE_MM / 2) if related else (0.0,)
