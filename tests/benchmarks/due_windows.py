"""What share of births falls into the 90 % due window, and how wide it is.

Run by hand: ``python tests/benchmarks/due_windows.py [COLONIES]``. Prints the table of
docs/mathematics.md: simulated colonies of a species of 90 to 168 to 180 days.
"""

import sys
from pathlib import Path

_HERE = Path(__file__)
sys.path[:0] = [str(_HERE.parents[2]), str(_HERE.parents[1] / "support")]

from gestation_truth import held_and_width

COLUMNS = (0, 1, 2, 5, 10, 20)


def main(colonies: int) -> None:
    """Print the table."""
    print("| colony's mean | scatter | " + " | ".join(f"{n} births" for n in COLUMNS) + " |")
    print("|---|---|" + "---|" * len(COLUMNS))
    for mean in (None, 130.0, 160.0, 168.0, 175.0):
        for within in (3.5, 5.0, 6.5):
            cells = []
            for births in COLUMNS:
                held = held_and_width(births, within, colonies=colonies, mean_days=mean)
                cells.append(f"{held.share:.0%}, {held.width_days:.0f} d")
            where = "as the species" if mean is None else f"{mean:.0f} d"
            print(f"| {where} | {within} d | " + " | ".join(cells) + " |", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
