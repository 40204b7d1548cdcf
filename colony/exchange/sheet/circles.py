"""Circles among parents: animals that would be their own ancestors."""

from collections.abc import Mapping, Sequence


def find_circles(parents: Mapping[str, Sequence[str]]) -> list[list[str]]:
    """Find a circle for each parent link that closes one, by depth-first search.

    Each circle is written pup before parent, its last animal the pup of its first. Without
    the links that were found closing, nothing goes in a circle. An own parent is no circle
    here. Time grows with the number of links.
    """
    circles: list[list[str]] = []
    done: set[str] = set()
    for start in parents:
        if start not in done:
            _search(start, parents, done, circles)
    return circles


def _search(
    start: str, parents: Mapping[str, Sequence[str]], done: set[str], circles: list[list[str]]
) -> None:
    path = {start: None}
    waiting = [iter(parents[start])]
    while waiting:
        pup = next(reversed(path))
        parent = next(waiting[-1], None)
        if parent is None:
            waiting.pop()
            path.pop(pup)
            done.add(pup)
        elif parent in path and parent != pup:
            around = list(path)
            circles.append(around[around.index(parent) :])
        elif parent not in path and parent not in done and parent in parents:
            path[parent] = None
            waiting.append(iter(parents[parent]))
