"""How often the sure number of a promise is there: `python tests/benchmarks/promises.py`.

Colonies are drawn as `tests/support/sale_truth.py` says; the part of luck that all pups of one
share is as the planner has it (0.25), none at all, or twice that.
"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "support"))

from sale_truth import held

if __name__ == "__main__":
    print("pups  litters  shared  held")
    for pups, litters in ((10, 1), (40, 4), (120, 10)):
        for truth in (0.0, 0.25, 0.5):
            share = held(1, pups=pups, litters=litters, truth=truth, colonies=60)
            print(f"{pups:4}  {litters:7}  {truth:6}  {100 * share:.0f} %")
