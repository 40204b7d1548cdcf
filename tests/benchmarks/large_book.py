"""An invented book of 10,000 animals, written straight into the tables: years of one house.

Some 1,300 of them are present, half of those growing pups; the others were sold at eight months.
Litters are of one to eight pups, one in five has a sire in doubt; every pup was measured
monthly while it grew and its foods were noted. The same seed gives the same book.
"""

import random
import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

from colony.store.book import begin_book

ANIMALS, FOUNDERS, DAMS, SIRES = 10_000, 120, 160, 60
TANKS, SYSTEMS = 180, 20
YEARS, BREEDING_AGE_DAYS, GESTATION_DAYS = 16, 1100, 130
GROWING_DAYS, SOLD_SHARE = 240, 0.95
FOODS = ("worms", "prawn", "smelt")
ROLES = ("breeding", "nursery", "grow-out", "grow-out", "grow-out")

Row = dict[str, object]


def write_large_book(path: Path, today: date, seed: int = 1, animals: int = ANIMALS) -> None:
    """Begin a book at `path` and fill it."""
    begin_book(str(path)).close()
    years = _Years(today, random.Random(seed), animals)
    years.live()
    with closing(sqlite3.connect(path)) as book:
        for table, rows in years.tables.items():
            if rows:
                names = ", ".join(rows[0])
                marks = ", ".join(f":{name}" for name in rows[0])
                book.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)  # noqa: S608 - our own names
        book.commit()
        book.execute("PRAGMA optimize")


class _Years:
    """The house through the years, one litter after another."""

    def __init__(self, today: date, chance: random.Random, animals: int) -> None:
        self.today, self.chance, self.animals = today, chance, animals
        names = "system tank animal pairing pairing_sire mating_sign litter possible_sire"
        self.tables: dict[str, list[Row]] = {
            name: [] for name in f"{names} placement measurement feeding hold".split()
        }
        self.breeders: dict[str, list[tuple[int, date]]] = {"F": [], "M": []}

    def live(self) -> None:
        """Write the house, its founders, and litters until the book is full."""
        self._house()
        begin = self.today - timedelta(days=365 * YEARS)
        for n in range(FOUNDERS):
            self._animal(f"W{n:03d}", "FM"[n % 2], begin - timedelta(days=1500), None)
        litters = (self.animals - FOUNDERS) / 4
        step = 365 * YEARS / litters
        day = 200.0
        while len(self.tables["animal"]) < self.animals:
            born = min(begin + timedelta(days=int(day)), self.today)
            self._litter(born)
            day += step
        self._expect()

    def _house(self) -> None:
        for n in range(1, SYSTEMS + 1):
            self._write("system", name=f"S{n}", volume_l=20_000)
        for n in range(1, TANKS + 1):
            self._write(
                "tank",
                code=f"T{n:03d}",
                system_id=(n - 1) // (TANKS // SYSTEMS) + 1,
                role=ROLES[n % len(ROLES)],
                length_mm=4000,
                width_mm=2000,
                volume_l=3000,
                walking_order=n,
            )

    def _litter(self, born: date) -> None:
        grown = {
            sex: [one for one, birth in animals if (born - birth).days > BREEDING_AGE_DAYS]
            for sex, animals in self.breeders.items()
        }
        dam = self.chance.choice(grown["F"][-DAMS:])
        sires = self.chance.sample(grown["M"][-SIRES:], 2 if self.chance.random() < 0.2 else 1)
        mated = born - timedelta(days=GESTATION_DAYS + self.chance.randrange(-30, 30))
        pairing = self._pairing(dam, sires, mated, mated + timedelta(days=60))
        live = self.chance.randint(1, 7)
        litter = self._write(
            "litter",
            code=f"{born.year % 100:02d}-{len(self.tables['litter']) + 1:04d}",
            dam_id=dam,
            pairing_id=pairing,
            born=born,
            live=live,
            dead=0,
            pups_may_differ=0,
        )
        for sire in sires:
            self._write("possible_sire", litter_id=litter, sire_id=sire, share=1 / len(sires))
        for n in range(1, live + 1):
            code = self.tables["litter"][-1]["code"]
            self._animal(f"{code}-{n}", self.chance.choice("FM"), born, litter)

    def _pairing(self, dam: int, sires: list[int], start: date, end: date | None) -> int:
        pairing = self._write("pairing", dam_id=dam, started=start, ended=end)
        for sire in sires:
            self._write("pairing_sire", pairing_id=pairing, sire_id=sire)
        seen = start + timedelta(days=3)
        self._write("mating_sign", pairing_id=pairing, seen_on=seen, kind="bite marks")
        return pairing

    def _animal(self, tag: str, sex: str, born: date, litter: int | None) -> None:
        age = (self.today - born).days
        sold = litter is not None and age > GROWING_DAYS and self.chance.random() < SOLD_SHARE
        ended = born + timedelta(days=GROWING_DAYS) if sold else None
        animal = self._write(
            "animal",
            tag=tag,
            sex=sex,
            species_id=2,
            born=born,
            born_precision="day",
            origin="wild" if litter is None else "born here",
            litter_id=litter,
            held_back=0,
            status="sold" if sold else "present",
            ended_on=ended,
        )
        if (not sold and not (litter and age < BREEDING_AGE_DAYS)) or (
            not sold and age >= GROWING_DAYS
        ):
            self.breeders[sex].append((animal, born))
        self._growth(animal, born, ended)
        self._write(
            "placement",
            animal_id=animal,
            tank_id=self.chance.randint(1, TANKS),
            entered_on=born,
            left_on=ended and ended + timedelta(days=1),
        )

    def _growth(self, animal: int, born: date, ended: date | None) -> None:
        last = min(ended or self.today, born + timedelta(days=GROWING_DAYS), self.today)
        width, day = self.chance.uniform(125, 155), born + timedelta(days=2)
        while day <= last:
            self._write("measurement", animal_id=animal, measured_on=day, width_mm=round(width))
            width += self.chance.uniform(4, 9)
            day += timedelta(days=self.chance.randint(28, 40))
        for week in range(1, 5):
            day = born + timedelta(days=7 * week)
            for food in FOODS:
                if day <= last:
                    took = int(self.chance.random() < 0.3 * week)
                    self._write("feeding", animal_id=animal, fed_on=day, food=food, took=took)

    def _expect(self) -> None:
        """Pair some dams now, so that somebody is due."""
        for dam, _ in self.breeders["F"][-DAMS::2]:
            start = self.today - timedelta(days=self.chance.randint(10, 150))
            self._pairing(dam, [self.breeders["M"][-1][0]], start, None)

    def _write(self, table: str, **facts: object) -> int:
        rows = self.tables[table]
        plain = {k: v.isoformat() if isinstance(v, date) else v for k, v in facts.items()}
        rows.append({"id": len(rows) + 1, **plain})
        return len(rows)
