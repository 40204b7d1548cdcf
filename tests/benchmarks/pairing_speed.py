"""How good the pairing plan is and how long it takes, on random colonies.

Run by hand: ``python tests/benchmarks/pairing_speed.py [COLONIES]``. Prints the tables of
docs/pairing.md: against every plan (8 dams x 6 sires), against "least kin first" and chance,
and the time of large plans with the kinship of their animals. Leaves with 1 if a plan is
worse than another or misses its time; with tanks no time is promised. Seconds are of the processor, so that a busy machine
counts little.
"""

import sys
import time
from pathlib import Path
from statistics import mean

import numpy as np

_HERE = Path(__file__)
sys.path[:0] = [str(_HERE.parents[2]), str(_HERE.parents[1] / "support")]

from plain_colonies import TODAY, best_of_all, stock, value

from colony.pedigree.graph.graph import IntArray, Pedigree
from colony.pedigree.kinship.kinship import kinship
from colony.planning.pairings.baselines import baseline_pairs
from colony.planning.pairings.planner import plan_pairings
from colony.planning.pairings.request import BreedingTank, Effort, PairingRequest, Stock

EFFORT = Effort(seconds=60.0, clock=time.process_time)


def pedigree(dams: int, sires: int, seed: int) -> tuple[Pedigree, IntArray]:
    """Three generations from 40 founders; the breeders are drawn from the last."""
    chance = np.random.default_rng(seed)
    parents = [(-1, -1)] * 40
    last = list(range(40))
    for share in (0.3, 0.6, 1.5):
        size = max(40, round(share * (dams + sires)))
        young: list[int] = []
        while len(young) < size:
            dam, sire = chance.choice(last[::2]), chance.choice(last[1::2])
            litter = range(len(parents), len(parents) + int(chance.integers(1, 6)))
            parents += [(int(dam), int(sire))] * len(litter)
            young += litter
        last = young
    tags = tuple(str(n) for n in range(len(parents)))
    dam, sire = np.array(parents, dtype=np.intp).T
    sexes = ["U"] * len(tags)
    return Pedigree(tags, dam, sire, sexes), chance.permutation(last)[: dams + sires]


def large(dams: int, sires: int, seed: int) -> tuple[Stock, float]:
    """A colony with a real pedigree, and the seconds that its kinship took."""
    tree, breeders = pedigree(dams, sires, seed)
    began = time.process_time()
    table = kinship(tree, breeders, breeders)
    seconds = time.process_time() - began
    return stock(dams, sires, seed, kinship=table), seconds


def against_every_plan(colonies: int) -> bool:
    """Hold plans of 8 x 6 against brute force."""
    worst = gap = 0.0
    for seed in range(colonies):
        colony = stock(8, 6, seed)
        plan = plan_pairings(colony, PairingRequest(most_females=3), today=TODAY, effort=EFFORT)
        worst = max(worst, plan.objective - best_of_all(colony, 8, 3))
        gap = max(gap, plan.gap)
    print(
        f"8 x 6, {colonies} colonies: above the best of all plans by at most {worst:.1e}, gap at most {gap:.1e}"
    )
    return worst <= 2e-6


def against_rules(dams: int, sires: int, colonies: int) -> bool:
    """Hold plans against rules of thumb, by the objective and its parts."""
    request, rows = PairingRequest(most_females=-(-dams // sires) + 2), []
    for seed in range(colonies):
        colony, _ = large(dams, sires, seed)
        plan = plan_pairings(colony, request, today=TODAY, effort=EFFORT)
        greedy = baseline_pairs(colony, request, rule="least kin first", today=TODAY)
        chance = baseline_pairs(colony, request, rule="random", today=TODAY, seed=seed)
        rows.append([plan.objective, *(value(colony, pairs) for pairs in (greedy, chance))])
    figures = [mean(column) for column in zip(*rows, strict=True)]
    print(f"| {dams} x {sires} | {colonies} |" + "".join(f" {figure:.4f} |" for figure in figures))
    return all(row[0] <= min(row) + 1e-9 for row in rows)


def timed(dams: int, sires: int, tanks: int, limit: float | None, colonies: int) -> bool:
    """Time plans with the kinship of their animals; without a limit nothing is promised."""
    chance, took, gaps = np.random.default_rng(dams), [], []
    offered = [BreedingTank(f"T{n}", float(chance.integers(5, 10)) * 1e5) for n in range(tanks)]
    request = PairingRequest(most_females=-(-dams // sires) + 1)
    for seed in range(colonies):
        colony, seconds = large(dams, sires, seed)
        began = time.process_time()
        plan = plan_pairings(colony, request, offered, today=TODAY, effort=EFFORT)
        took.append(time.process_time() - began + seconds)
        gaps.append(plan.gap)
    print(
        f"| {dams} x {sires} | {tanks or 'no limit'} | {colonies} | {mean(took):.1f} | "
        f"{max(took):.1f} | {max(gaps):.1e} |"
    )
    return limit is None or max(took) <= limit


def main(colonies: int) -> int:
    """Print all tables; 1 if a promise is broken."""
    kept = [against_every_plan(colonies)]
    print("\n| dams x sires | colonies | plan | least kin first | random |")
    kept += [against_rules(*size, colonies) for size in ((24, 10), (60, 25))]
    print("\n| dams x sires | tanks | colonies | mean s | longest s | greatest gap |", flush=True)
    kept += [
        timed(60, 25, 0, 30.0, colonies),
        timed(60, 25, 40, None, 5),
        timed(60, 25, 15, None, 2),
        timed(1000, 300, 0, 60.0, 3),
    ]
    return 0 if all(kept) else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 20))
