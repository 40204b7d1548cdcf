"""Measure the pedigree room beside sgkit on the same arrays, in one run.

Run it with an interpreter that has the extra ``reference`` installed::

    python tests/benchmarks/pedigree_speed.py             # 10,000 and 100,000 animals
    python tests/benchmarks/pedigree_speed.py --million   # and 1,000,000, ours only

Processor time of one thread, the least of several runs, so that a busy machine decides nothing;
wall clock for the fresh process. It is a measurement, not a test.
"""

import argparse
import resource
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from importlib import import_module
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

import numpy as np
from farm_pedigree import farm, farm_parents

from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.graph.graph import FloatArray, Pedigree
from colony.pedigree.kinship.inbreeding import inbreeding
from colony.pedigree.kinship.kinship import kinship

ROWS, COLUMNS = 60, 25

FRESH = """
import time; begin = time.perf_counter()
{body}
print(time.perf_counter() - begin)
"""
OURS = """
import sys; sys.path[:0] = {path!r}
import numpy, time as clock
after_numpy = clock.perf_counter()
from farm_pedigree import farm
from colony.pedigree.kinship.inbreeding import inbreeding
pedigree = farm(10_000)
asked = clock.perf_counter()
inbreeding(pedigree)
print("F of 10,000, first call", clock.perf_counter() - asked, file=sys.stderr)
"""
THEIRS = """
import sys; sys.path[:0] = {path!r}
import numpy as np
from farm_pedigree import farm_parents
import sgkit.stats.pedigree
"""


def say(line: str) -> None:
    """Write one line at once."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def best(work: Callable[[], object], times: int) -> float:
    """Least processor time of some runs, in seconds."""
    taken = []
    for _ in range(times):
        begin = time.process_time()
        work()
        taken.append(time.process_time() - begin)
    return min(taken)


def sgkit_inbreeding(parents: np.ndarray[tuple[int, int], np.dtype[np.int64]]) -> FloatArray:
    """F by the reference library's compiled kernel, without its data set wrapping."""
    kernel = import_module("sgkit.stats.pedigree").inbreeding_Hamilton_Kerr
    found, _ = kernel(parents, np.ones_like(parents), np.zeros(parents.shape), True)
    return np.asarray(found)


def beside_sgkit(animals: int, seasons: int, times: int) -> None:
    """One line of the table: all F from the same arrays, ours with all checks."""
    dam, sire = farm_parents(animals, seasons=seasons, seed=1)
    parents = np.stack((dam, sire), axis=1)
    pedigree = farm(animals, seasons=seasons)

    def ours() -> FloatArray:
        return inbreeding(Pedigree(pedigree.tags, dam, sire, pedigree.sexes))

    reference = sgkit_inbreeding(parents)
    assert np.abs(ours() - reference).max() < 1e-12
    we = best(ours, times)
    they = best(lambda: sgkit_inbreeding(parents), 3 if animals > 10_000 else times)
    chance = np.random.default_rng(1)
    some = chance.choice(np.arange(animals - animals // seasons, animals), ROWS + COLUMNS, False)
    all_f = best(lambda: inbreeding(pedigree), times)
    pairs = best(lambda: kinship(pedigree, some[:ROWS], some[ROWS:]), times)
    known = generation_equivalents(pedigree)
    say(
        f"| {animals:,} | {pedigree.nodes.step.max()} | {known.mean():.1f} | {we * 1000:.1f} | "
        f"{they * 1000:.1f} | {they / we:.0f} | {pairs * 1000:.1f} | {pairs / all_f:.2f} |"
    )


def fresh(body: str) -> float:
    """Seconds of a fresh process, all imports counted."""
    path = [str(Path(__file__).parent), str(Path(__file__).parents[2])]
    script = FRESH.format(body=body.format(path=path))
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    sys.stdout.write(ran.stderr)
    return float(ran.stdout)


def million() -> None:
    """All F of a million animals, and the memory that it took."""
    for seasons in (20, 40):
        pedigree = farm(1_000_000, seasons=seasons)
        taken = best(partial(inbreeding, pedigree), 1)
        gib = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 2**20
        say(f"1,000,000 animals, {seasons} seasons: {taken:.1f} s, {gib:.2f} GiB at most so far")


def main() -> None:
    """Print the table."""
    words = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else None)
    words.add_argument("--million", action="store_true")
    asked = words.parse_args()
    say("| animals | steps | known generations | ours ms | sgkit ms | times | 60 x 25 ms | of F |")
    say("| --- | --- | --- | --- | --- | --- | --- | --- |")
    for animals, seasons, times in (
        (10_000, 20, 25),
        (10_000, 40, 25),
        (100_000, 20, 11),
        (100_000, 40, 11),
    ):
        beside_sgkit(animals, seasons, times)
    ours, theirs = (min(fresh(body) for _ in range(3)) for body in (OURS, THEIRS))
    say(f"fresh process: ours {ours:.3f} s, importing sgkit alone {theirs:.2f} s")
    if asked.million:
        million()


if __name__ == "__main__":
    main()
