"""The most that can flow through a network of whole capacities."""

from collections import deque
from collections.abc import Hashable
from itertools import pairwise

Node = Hashable
SOURCE, SINK = "source", "sink"


class Network:
    """Capacities between nodes, and what flows from `SOURCE` to `SINK`.

    The flow is the greatest there is: Ford & Fulkerson 1956, Maximal flow through a network,
    Can. J. Math. 8:399-404; along shortest paths, as Edmonds & Karp 1972, J. ACM 19:248-264.
    """

    def __init__(self) -> None:
        self._left: dict[Node, dict[Node, int]] = {SOURCE: {}, SINK: {}}

    def join(self, start: Node, end: Node, capacity: int) -> None:
        """Let so much flow from one node to another; the two are joined once."""
        self._left.setdefault(start, {})[end] = capacity
        self._left.setdefault(end, {})[start] = 0

    def fill(self) -> int:
        """Let in as much as can flow besides what flows already, and say how much that is.

        What already reaches the sink by an arc goes on reaching it by that arc.
        """
        added = 0
        while path := self._shortest_path():
            steps = list(pairwise(path))
            amount = min(self._left[start][end] for start, end in steps)
            for start, end in steps:
                self._left[start][end] -= amount
                self._left[end][start] += amount
            added += amount
        return added

    def flows(self, start: Node, end: Node) -> int:
        """What flows from one node to another that it is joined to."""
        return self._left[end][start]

    def _shortest_path(self) -> list[Node]:
        came_from: dict[Node, Node] = {SOURCE: SOURCE}
        waiting: deque[Node] = deque([SOURCE])
        while waiting and SINK not in came_from:
            node = waiting.popleft()
            for after, left in self._left[node].items():
                if left and after not in came_from:
                    came_from[after] = node
                    waiting.append(after)
        if SINK not in came_from:
            return []
        path: list[Node] = [SINK]
        while path[-1] != SOURCE:
            path.append(came_from[path[-1]])
        return path[::-1]
