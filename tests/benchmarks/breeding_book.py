"""An invented book in which very many may be paired: grown animals of one old pedigree.

Ten animals were written down for each that is still here; those who are here are the youngest
of the pedigree, grown, and each male has a breeding tank of his own.
"""

import sqlite3
from contextlib import closing
from datetime import date, timedelta
from pathlib import Path

import numpy as np
from farm_pedigree import farm_parents

from colony.store.book import begin_book

EVER, SEASONS = 10, 12
YOUNGEST_DAYS, SEASON_DAYS = 1200, 180
WIDTH_MM, TANK_MM = 500, (6000, 4000)


def write_breeding_book(path: Path, today: date, *, females: int, males: int) -> None:
    """Begin a book at `path` with so many that may be paired."""
    begin_book(str(path)).close()
    count = EVER * (females + males)
    dam, sire = farm_parents(count, seasons=SEASONS, seed=females)
    here = _here(count, females, males)
    ages = YOUNGEST_DAYS + SEASON_DAYS * (count - np.arange(count)) * SEASONS // count
    animals = [
        (
            at + 1,
            f"R{at:05d}",
            "FM"[at % 2],
            (today - timedelta(days=int(ages[at]))).isoformat(),
            *(None if parent < 0 else int(parent) + 1 for parent in (dam[at], sire[at])),
            "present" if at in here else "sold",
            None if at in here else today.isoformat(),
        )
        for at in range(count)
    ]
    bulls = sorted(at for at in here if at % 2)
    with closing(sqlite3.connect(path)) as book:
        book.execute("INSERT INTO system (id, name, volume_l) VALUES (1, 'S', 90000)")
        book.executemany(
            "INSERT INTO animal (id, tag, sex, species_id, born, born_precision, origin, dam_id,"
            " sire_id, held_back, status, ended_on)"
            " VALUES (?, ?, ?, 2, ?, 'day', 'born here', ?, ?, 0, ?, ?)",
            animals,
        )
        book.executemany(
            "INSERT INTO measurement (animal_id, measured_on, width_mm) VALUES (?, ?, ?)",
            [(at + 1, (today - timedelta(days=9)).isoformat(), WIDTH_MM) for at in here],
        )
        book.executemany(
            "INSERT INTO tank (id, code, system_id, role, length_mm, width_mm)"
            " VALUES (?, ?, 1, 'breeding', ?, ?)",
            [(number, f"B{number:03d}", *TANK_MM) for number in range(1, males + 1)],
        )
        book.executemany(
            "INSERT INTO placement (animal_id, tank_id, entered_on) VALUES (?, ?, ?)",
            [(at + 1, bulls.index(at - at % 2 + 1) + 1 if at % 2 else 1 + at % males,
              (today - timedelta(days=90)).isoformat()) for at in here],
        )  # fmt: skip
        book.commit()
        book.execute("PRAGMA optimize")


def _here(count: int, females: int, males: int) -> set[int]:
    """The youngest so many of each sex."""
    order = np.arange(count)[::-1]
    return {
        int(at)
        for parity, most in ((0, females), (1, males))
        for at in order[order % 2 == parity][:most]
    }
