"""Why an animal is inbred, as lines of text: each path from the common ancestor to the pup."""

from collections.abc import Iterator, Sequence

from colony.pedigree.paths.paths import Path, Why

BAR = 24


def why_lines(why: Why, pup: str, *, width: int = 80) -> list[str]:
    """Draw every path, or how much each common ancestor adds where they are too many.

    Parameters
    ----------
    pup
        What stands where the two lines meet: the tag of the pup, or a word for pups to come.
    width
        Columns of the terminal; longer paths lose names in the middle.
    """
    if why.paths:
        return [line for path in why.paths for line in (*_path(path, pup, width), "")][:-1]
    return list(_bars(why, width))


def _path(path: Path, pup: str, width: int) -> Iterator[str]:
    room = width - len(pup) - 9
    upper, lower = (_joined(side[::-1], room) for side in (path.first, path.second))
    across = max(len(upper), len(lower))
    yield f"{path.ancestor}  adds {path.adds:.6f}"
    yield f"├─{upper.ljust(across, '─')}─┐"
    yield f"└─{lower.ljust(across, '─')}─┴─ {pup}"


def _joined(names: Sequence[str], room: int) -> str:
    """Names along a line; where they do not fit, those in the middle become a count."""
    line = "".join(f" {name} ─" for name in names).removesuffix("─")
    keep = len(names) - 1
    while len(line) > room and keep > 1:
        left_out = len(names) - keep
        middle = (
            *names[: keep // 2],
            f"({left_out} more)",
            *names[len(names) - (keep - keep // 2) :],
        )
        line = "".join(f" {name} ─" for name in middle).removesuffix("─")
        keep -= 1
    return line if len(line) <= room else line[: room - 1] + "\N{HORIZONTAL ELLIPSIS}"


def _bars(why: Why, width: int) -> Iterator[str]:
    """The common ancestors with a bar as long as what they add."""
    tags = max((len(part.ancestor) for part in why.ancestors), default=0)
    tags = min(tags, width - BAR - 30)
    most = max((part.adds for part in why.ancestors), default=1.0)
    for part in why.ancestors:
        bar = "█" * max(1, round(BAR * part.adds / most))
        paths = f"{part.paths:,} path{'s' * (part.paths != 1)}"
        yield f"{part.ancestor[:tags]:<{tags}}  {bar:<{BAR}}  {part.adds:.6f}  {paths}"
