"""Which box is next in a direction."""

from collections.abc import Sequence

from textual.geometry import Region


def nearest(here: Region, boxes: Sequence[Region], right: int, down: int) -> int | None:
    """The place of the nearest box to the left, right, top or bottom, or None.

    Boxes in line come before boxes that are nearer but aside.
    """
    best: tuple[tuple[int, int], int] | None = None
    for at, box in enumerate(boxes):
        ahead = (box.x - here.x) * right + (box.y - here.y) * down
        aside = abs((box.y - here.y) * right) + abs((box.x - here.x) * down)
        if ahead <= 0:
            continue
        score = (aside, ahead) if right else (ahead, aside)
        if best is None or score < best[0]:
            best = score, at
    return None if best is None else best[1]
