"""Throw many hostile cases at everything that strangers can type or hand over.

Run by hand for the full figures: python tests/safety/fuzz_drill.py CASES SEED
"""

import json
import os
import resource
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from fuzz_targets import targets
from hypothesis import HealthCheck, Phase, given, seed, settings
from hypothesis import strategies as st

SLOW = {"sheet": 0.1, "command": 0.05}
"""These share of the cases: each of theirs takes as long as a hundred of the others."""

SLOWEST_S = 5
"""One case that takes longer hangs."""


def drill(cases: int, number: int = 0) -> dict[str, object]:
    """Spread the cases over all targets; stops at the first that breaks the promise."""
    folder = Path(tempfile.mkdtemp())
    os.environ["COLONY_WHO"] = "a stranger"
    os.environ["XDG_DATA_HOME"] = str(folder)
    known = targets(folder)
    fast = (1 - sum(SLOW.values())) / (len(known) - len(SLOW))
    seconds: list[float] = []
    for name, target in known.items():
        seconds += attack(*target, most=max(int(cases * SLOW.get(name, fast)), 1), number=number)
    assert max(seconds) < SLOWEST_S, seconds
    return {
        "targets": len(known),
        "cases": len(seconds),
        "slowest_s": round(max(seconds), 2),
        "most_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024,
    }


def attack(
    strategy: st.SearchStrategy[Any], target: Callable[[Any], object], *, most: int, number: int
) -> list[float]:
    """Throw up to `most` cases at one target; the seconds that each took."""
    seconds: list[float] = []

    @seed(number)
    @settings(
        max_examples=most,
        database=None,
        deadline=None,
        phases=[Phase.generate, Phase.shrink],
        suppress_health_check=list(HealthCheck),
    )
    @given(strategy)
    def throw(case: object) -> None:
        began = time.monotonic()
        target(case)
        seconds.append(time.monotonic() - began)

    throw()
    return seconds


if __name__ == "__main__":
    sys.stdout.write(json.dumps(drill(int(sys.argv[1]), int(sys.argv[2]))) + "\n")
