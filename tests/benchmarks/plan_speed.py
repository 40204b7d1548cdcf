"""How long `colony pairing plan` takes, whole process and kinship included.

Run by hand: ``python tests/benchmarks/plan_speed.py [RUNS]``. Each figure is the median of
whole fresh processes on a book that was just written: processor seconds, which are what an
idle machine takes, and the seconds on the clock, of which a plan may take ten minutes. Leaves
with 1 if one is over its limit.
"""

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

from breeding_book import write_breeding_book

SIZES = {(60, 25): 2.0, (1000, 300): 60.0}
"""Females, males, and the seconds that a plan for them may take."""

WAYS: dict[str, list[str]] = {
    "plan": [],
    "plan --worst --founders 1": ["--worst", "--founders", "1"],
    "plan --tanks": ["--tanks"],
    "plan --accept": ["--accept"],
}
PLAN = [sys.executable, "-m", "colony", "pairing", "plan", "--json", "--seconds", "600"]


def timed(words: list[str], environment: dict[str, str]) -> tuple[float, float, str]:
    """Processor and wall seconds of one fresh process, and what its plan says of itself."""
    began, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([*PLAN, *words], env=environment, check=False, capture_output=True)
    wall, after = time.perf_counter() - began, resource.getrusage(resource.RUSAGE_CHILDREN)
    took = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    if done.returncode:
        return took, wall, done.stderr.decode()
    plan = json.loads(done.stdout)
    said = f"{len(plan['pairs'])} pairs, gap {plan['gap']:.5f}, optimal {plan['optimal']}"
    return took, wall, said


def main(runs: int) -> int:
    """Time every way to plan; return 1 if one is over its limit."""
    slow = 0
    today = date.today()  # noqa: DTZ011 - the book follows the calendar
    for (females, males), limit in SIZES.items():
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "breeding.colony"
            write_breeding_book(path, today, females=females, males=males)
            book = {"COLONY_BOOK": str(path), "PYTHONPATH": str(Path(__file__).parents[2])}
            for name, words in WAYS.items():
                times = [timed(words, os.environ | book) for _ in range(1 if words else runs)]
                took, wall = median(one[0] for one in times), median(one[1] for one in times)
                slow += took > limit
                print(
                    f"{females} x {males}  {name:26} {took:6.2f} s ({wall:.2f} on the clock, "
                    f"limit {limit:g}): {times[-1][-1]}",
                    flush=True,
                )
    return int(slow > 0)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 3))
