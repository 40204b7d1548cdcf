"""Forty orders over 300 pups of 43 litters: `python tests/benchmarks/sets.py [SECONDS]`."""

import sys
from time import monotonic, perf_counter

import numpy as np

from colony.planning.orders.sets import SaleStock, SetWanted, best_sets

LITTERS, PUPS, ORDERS, DAMS, SIRES = 43, 300, 40, 20, 8


def stock_and_orders(seed: int) -> tuple[SaleStock, list[SetWanted]]:
    """Pups of two species whose parents are unrelated, cousins or half sibs; orders for one to four."""
    chance = np.random.default_rng(seed)
    dams, sires = chance.integers(DAMS, size=LITTERS), DAMS + chance.integers(SIRES, size=LITTERS)
    kin = chance.choice([0, 0, 0, 0.0625, 0.125], size=(DAMS + SIRES, DAMS + SIRES))
    kin = np.triu(kin, 1) + np.triu(kin, 1).T + np.eye(DAMS + SIRES) / 2
    parents = np.zeros((LITTERS, DAMS + SIRES))
    rows = np.arange(LITTERS)
    parents[rows, dams] += 0.5
    parents[rows, sires] += 0.5
    between = parents @ kin @ parents.T
    np.fill_diagonal(between, 0.25)
    litter, sex = np.arange(PUPS) % LITTERS, chance.integers(2, size=PUPS)
    species = dams[litter] % 2
    kinship = between[np.ix_(litter, litter)].astype(float)
    np.fill_diagonal(kinship, 0.5)
    tags = tuple(f"P{n}" for n in range(PUPS))
    stock = SaleStock(tags, kinship, tuple(map(str, litter)), tuple(sex.tolist()))
    orders = []
    for _ in range(ORDERS):
        wanted = (int(chance.integers(1, 3)), int(chance.integers(1, 3)))
        kind = species == chance.integers(2)
        would_do = np.array([(sex == 0) & kind, (sex == 1) & kind])
        orders.append(SetWanted(wanted, would_do, float(chance.choice([0.0, 0.03, 0.125, 1.0]))))
    return stock, orders


if __name__ == "__main__":
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 10.0
    print("seed  seconds  filled  greatest kinship  sum of means  proved  gap")
    for seed in range(1, 6):
        stock, orders = stock_and_orders(seed)
        began = perf_counter()
        found = best_sets(stock, orders, seconds=seconds, clock=monotonic)
        took = perf_counter() - began
        sets = [each for each in found.sets if each is not None]
        greatest = max((each.greatest_kinship for each in sets), default=0.0)
        total = sum(each.mean_kinship for each in sets)
        print(
            f"{seed:4}  {took:7.1f}  {len(sets):6}  {greatest:16.4f}  {total:12.4f}  "
            f"{'yes' if found.proven else 'no':6}  {found.gap or 0:.4f}"
        )
