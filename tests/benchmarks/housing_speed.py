"""How long the outlook and the plan take in a full house: 200 tanks, 2,000 growing pups.

Run by hand: ``python tests/benchmarks/housing_speed.py [RUNS]``. The house is invented, the
same seed gives the same one: grow-out tanks that are about two thirds full and fill up as
the pups grow, nurseries, and breeding tanks whose dams were mated. Each figure is the
median processor time of whole fresh processes less that of the imports, so that a busy
machine does not count. Leaves with 1 when `tank outlook` takes 2 s, or `tank plan` 20 s.
"""

import json
import os
import random
import resource
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path
from statistics import median

sys.path[:0] = [str(Path(__file__).parents[2])]

from colony.store.book import begin_book

GROW_OUT, NURSERIES, BREEDING = 140, 30, 30
PUPS, DUE = 2_000, 40
LITTER = 7
IMPORTS = "import typer, rich.table, sqlmodel, numpy, scipy.optimize, scipy.sparse"
COMMANDS = {
    "tank outlook": (["tank", "outlook", "--weeks", "26", "--json"], 2.0),
    "tank plan": (["tank", "plan", "--weeks", "26", "--sales", "25", "--json"], 20.0),
}

Row = dict[str, object]


class FullHouse:
    """The rows of the house, table by table."""

    def __init__(self, today: date, seed: int = 1) -> None:
        self.today, self.chance = today, random.Random(seed)
        self.tables: dict[str, list[Row]] = {}

    def write(self, path: Path) -> None:
        """Begin a book at `path` and fill it."""
        begin_book(str(path)).close()
        self._tanks()
        dams = [
            self._animal(f"D{n}", "F", None, GROW_OUT + NURSERIES + n % BREEDING)
            for n in range(DUE)
        ]
        sires = [self._animal(f"S{n}", "M", None, GROW_OUT + NURSERIES + n) for n in range(10)]
        self._pups(dams)
        self._mated(dams, sires)
        with closing(sqlite3.connect(path)) as book:
            for table, rows in self.tables.items():
                names, marks = ", ".join(rows[0]), ", ".join(f":{name}" for name in rows[0])
                book.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)  # noqa: S608 - our own names
            book.commit()

    def _tanks(self) -> None:
        for n in range(20):
            self._write("system", name=f"system {n}")
        roles = ["grow-out"] * GROW_OUT + ["nursery"] * NURSERIES + ["breeding"] * BREEDING
        for n, role in enumerate(roles):
            long, wide = (3000, 1500) if role == "breeding" else (2000, 1000)
            system = n * 20 // len(roles) + 1
            self._write(
                "tank", code=f"T{n}", system_id=system, role=role, length_mm=long, width_mm=wide
            )

    def _pups(self, dams: list[int]) -> None:
        count = 0
        while count < PUPS:
            born = self.today - timedelta(days=self.chance.randint(3, 240))
            code = f"L{len(self.tables.get('litter', [])) + 1}"
            live = min(LITTER, PUPS - count)
            dam = self.chance.choice(dams)
            litter = self._write(
                "litter", code=code, dam_id=dam, born=born, live=live, dead=0, pups_may_differ=0
            )
            young = (self.today - born).days < 42
            tank = (
                self.chance.randrange(GROW_OUT, GROW_OUT + NURSERIES)
                if young
                else litter % GROW_OUT
            )
            for n in range(live):
                self._pup(f"{code}-{n + 1}", born, litter, tank)
            count += live

    def _pup(self, tag: str, born: date, litter: int, tank: int) -> None:
        animal = self._animal(tag, self.chance.choice("FM"), litter, tank, born)
        width, day, pace = self.chance.uniform(130, 150), born, self.chance.uniform(3.0, 5.0)
        while day <= self.today:
            self._write("measurement", animal_id=animal, measured_on=day, width_mm=round(width))
            weeks = self.chance.randint(3, 5)
            width += weeks * pace
            day += timedelta(weeks=weeks)

    def _animal(
        self, tag: str, sex: str, litter: int | None, tank: int, born: date = date(2018, 1, 1)
    ) -> int:
        animal = self._write(
            "animal",
            tag=tag,
            sex=sex,
            species_id=2,
            born=born,
            born_precision="day",
            origin="born here" if litter else "wild",
            litter_id=litter,
            held_back=0,
            status="present",
        )
        self._write("placement", animal_id=animal, tank_id=tank + 1, entered_on=born)
        if litter is None:
            self._write("measurement", animal_id=animal, measured_on=born, width_mm=450)
        return animal

    def _mated(self, dams: list[int], sires: list[int]) -> None:
        for n, dam in enumerate(dams):
            mated = self.today - timedelta(days=self.chance.randint(10, 160))
            pairing = self._write("pairing", dam_id=dam, started=mated)
            self._write("pairing_sire", pairing_id=pairing, sire_id=sires[n % len(sires)])
            self._write("mating_sign", pairing_id=pairing, seen_on=mated, kind="copulation")

    def _write(self, table: str, **facts: object) -> int:
        rows = self.tables.setdefault(table, [])
        plain = {k: v.isoformat() if isinstance(v, date) else v for k, v in facts.items()}
        rows.append({"id": len(rows) + 1, **plain})
        return len(rows)


def timed(command: list[str], environment: dict[str, str]) -> tuple[float, bytes]:
    """Processor time and answer of one fresh process."""
    before = _processor_seconds()
    done = subprocess.run(command, env=environment, check=True, capture_output=True)
    return _processor_seconds() - before, done.stdout


def _processor_seconds() -> float:
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def main(runs: int) -> int:
    """Time both commands; return 1 if one is over its limit."""
    slow = False
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "house.colony"
        FullHouse(date.today()).write(path)  # noqa: DTZ011 - the book follows the calendar
        environment = os.environ | {
            "COLONY_BOOK": str(path),
            "PYTHONPATH": str(Path(__file__).parents[2]),
        }
        for name, (words, limit) in COMMANDS.items():
            command = [sys.executable, "-m", "colony", *words]
            bare = [sys.executable, "-c", IMPORTS]
            pairs = [(timed(command, environment), timed(bare, environment)) for _ in range(runs)]
            seconds = median(one[0] - other[0] for one, other in pairs)
            print(
                f"{name:14} {seconds:6.2f} s over its imports (limit {limit:g} s){_told(pairs[0][0][1])}"
            )
            slow = slow or seconds > limit
    return int(slow)


def _told(answer: bytes) -> str:
    document = json.loads(answer)
    if isinstance(document, list):
        return f", {len(document)} tanks, {sum(bool(tank['breaks']) for tank in document)} break a limit"
    weeks = document["weeks"]
    moves = [len(week["moves"]) for week in weeks]
    proved = sum(week["optimal"] for week in weeks)
    remedies = sum(week["remedy"] is not None for week in weeks)
    return f", moves {moves}, {proved} of {len(weeks)} weeks optimal, {remedies} with a remedy, first gap {weeks[0]['gap']:.0%}"


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 3))
