"""How long each command takes on a book of 10,000 animals, as a ratio to bare imports.

Run by hand: ``python tests/benchmarks/command_speed.py [RUNS]``. Each figure is the median
of whole fresh processes, and commands and imports take turns, so that a busy machine slows
both. A reading command may take 1.6 times the import of its libraries, help and completion
2.0 times the import of typer. Leaves with 1 if one is slower.
"""

import os
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path
from statistics import median

sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parent)]

from large_book import write_large_book

READING = {
    "the day": [],
    "animal list": ["animal", "list"],
    "animal list --json": ["animal", "list", "--json"],
    "animal show": ["animal", "show", "W001", "--json"],
    "pup ready": ["pup", "ready"],
    "litter due": ["litter", "due"],
    "litter list": ["litter", "list"],
    "litter show": ["litter", "show", "{litter}"],
    "pairing list": ["pairing", "list"],
    "pairing pick": ["pairing", "pick", "W001"],
    "tank list": ["tank", "list"],
    "pedigree inbreeding": ["pedigree", "inbreeding", "W001"],
    "pedigree kinship": ["pedigree", "kinship", "W001", "W002"],
    "species list": ["species", "list"],
    "book settings": ["book", "settings"],
}
FITTING = {"pup ready --all --json": ["pup", "ready", "--all", "--json"]}
"""Reads, and fits the growth of the whole colony twice: the limit of a listing is not its own."""

QUICK = {"--help": ["--help"], "litter record --help": ["litter", "record", "--help"]}
COMPLETION = {"COMP_WORDS": "colony animal show W0", "COMP_CWORD": "3"}
READING_LIMIT, FITTING_LIMIT, QUICK_LIMIT = 1.6, 3.0, 2.0
LIBRARIES = [sys.executable, "-c", "import typer, rich.table, sqlmodel"]
TYPER = [sys.executable, "-c", "import typer"]
COLONY = [sys.executable, "-m", "colony"]


def seconds(command: list[str], environment: dict[str, str]) -> float:
    """Wall time of one fresh process."""
    began = time.perf_counter()
    subprocess.run(command, env=environment, check=False, capture_output=True)
    return time.perf_counter() - began


def ratio(command: list[str], against: list[str], runs: int, more: dict[str, str]) -> float:
    """Median time of a command over the median time of bare imports, taking turns."""
    environment = os.environ | more
    # An installed program was compiled once; a source tree that may not be is not what is timed.
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    seconds(command, environment)
    pairs = [(seconds(command, environment), seconds(against, environment)) for _ in range(runs)]
    return median(one for one, _ in pairs) / median(other for _, other in pairs)


def main(runs: int) -> int:
    """Time every command; return 1 if one is over its limit."""
    slow = 0
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "large.colony"
        write_large_book(path, date.today())  # noqa: DTZ011 - the book follows the calendar
        book = {"COLONY_BOOK": str(path), "PYTHONPATH": str(Path(__file__).parents[2])}
        for name, words in READING.items():
            asked = [word.format(litter=_a_litter(path)) for word in words]
            slow += _tell(name, ratio([*COLONY, *asked], LIBRARIES, runs, book), READING_LIMIT)
        for name, words in FITTING.items():
            slow += _tell(name, ratio([*COLONY, *words], LIBRARIES, runs, book), FITTING_LIMIT)
        for name, words in QUICK.items():
            slow += _tell(name, ratio([*COLONY, *words], TYPER, runs, book), QUICK_LIMIT)
        completing = book | COMPLETION | {"_COLONY_COMPLETE": "complete_bash"}
        slow += _tell("completion", ratio(COLONY, TYPER, runs, completing), QUICK_LIMIT)
    return int(slow > 0)


def _a_litter(path: Path) -> str:
    import sqlite3

    return str(sqlite3.connect(path).execute("SELECT max(code) FROM litter").fetchone()[0])


def _tell(name: str, measured: float, limit: float) -> bool:
    slow = measured > limit
    print(f"{name:24} {measured:5.2f}  (limit {limit}){'  SLOW' if slow else ''}", flush=True)
    return slow


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 5))
