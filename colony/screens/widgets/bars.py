"""Bars: a share of a whole, drawn in the width there is."""

BLOCKS = "█"
EMPTY = "░"


def bar(share: float, width: int, limit: float | None = None) -> str:
    """Draw a share from 0 to 1; what is beyond is told by a mark at the end.

    Parameters
    ----------
    limit
        Where a line stands that should not be crossed, as a share.
    """
    if width < 1:
        return ""
    filled = min(max(round(share * width), 0), width)
    cells = [BLOCKS] * filled + [EMPTY] * (width - filled)
    if limit is not None and 0 < limit < 1:
        cells[min(round(limit * width), width - 1)] = "|"
    if share > 1:
        cells[-1] = "►"
    return "".join(cells)
