"""A large invented book, written row by row: what the speed of the screens is measured on."""

import random
from datetime import date, timedelta
from pathlib import Path

from sqlmodel import Session

from colony.records import Animal, Litter, Measurement, Pairing, PairingSire, Placement, PossibleSire
from colony.records import System, Tank
from colony.store.book import open_book

TODAY = date(2026, 3, 2)
DAMS, SIRES, TANKS = 240, 80, 200
GROWING_DAYS = 240
"""Pups younger than this are in the house; the others were sold."""


def write_large_book(path: Path, animals: int = 20_000, seed: int = 7) -> Path:
    """Write a book of so many animals: a breeding stock, its litters of ten years, and their pups."""
    book, chance = open_book(str(path), begin=True), random.Random(seed)
    with Session(book.engine) as session:
        _house(session)
        stock = _stock(session)
        _pairings(session, stock)
        _litters(session, stock, animals - DAMS - SIRES, chance)
        session.commit()
    book.close()
    return path


def _house(session: Session) -> None:
    session.add_all(System(id=n, name=f"system {n}") for n in range(1, 11))
    session.flush()
    session.add_all(
        Tank(
            id=n, code=f"T{n}", system_id=n % 10 + 1, role="breeding" if n <= DAMS // 4 else "grow-out",
            length_mm=3000, width_mm=2000, walking_order=n,
        )
        for n in range(1, TANKS + 1)
    )
    session.flush()


def _stock(session: Session) -> dict[str, list[int]]:
    ids: dict[str, list[int]] = {"F": [], "M": []}
    for n in range(1, DAMS + SIRES + 1):
        sex = "F" if n <= DAMS else "M"
        ids[sex].append(n)
        session.add(
            Animal(id=n, tag=f"{sex}{n}", species_id=2, sex=sex, born=date(2012, 1, 1), mature_since=date(2015, 1, 1))
        )
    session.flush()
    for n in range(1, DAMS + SIRES + 1):
        session.add(Placement(animal_id=n, tank_id=n % (DAMS // 4) + 1, entered_on=date(2015, 1, 1)))
        session.add(Measurement(animal_id=n, measured_on=date(2026, 1, 1), width_mm=480))
    session.flush()
    return ids


def _pairings(session: Session, stock: dict[str, list[int]]) -> None:
    for n, dam in enumerate(stock["F"][: DAMS // 3], 1):
        session.add(Pairing(id=n, dam_id=dam, started=TODAY - timedelta(days=20 + n)))
        session.flush()
        session.add(PairingSire(pairing_id=n, sire_id=stock["M"][n % SIRES]))
    session.flush()


def _litters(session: Session, stock: dict[str, list[int]], pups: int, chance: random.Random) -> None:
    animal, litter = DAMS + SIRES, 0
    while animal < DAMS + SIRES + pups:
        litter += 1
        born = date(2016, 1, 1) + timedelta(days=(TODAY - date(2016, 1, 1)).days * litter * 7 // (pups + 70))
        live = min(chance.randint(4, 10), DAMS + SIRES + pups - animal)
        session.add(Litter(id=litter, code=f"L{litter}", dam_id=stock["F"][litter % DAMS], born=born, live=live))
        session.flush()
        session.add(PossibleSire(litter_id=litter, sire_id=stock["M"][litter % SIRES], share=1.0))
        for n in range(1, live + 1):
            animal += 1
            _pup(session, animal, litter, n, born, chance)
    session.flush()


def _pup(session: Session, animal: int, litter: int, n: int, born: date, chance: random.Random) -> None:
    growing = (TODAY - born).days < GROWING_DAYS
    session.add(
        Animal(
            id=animal, tag=f"L{litter}-{n}", species_id=2, sex=chance.choice("FM"), born=born,
            origin="born here", litter_id=litter, status="present" if growing else "sold",
            ended_on=None if growing else born + timedelta(days=150),
        )
    )
    session.flush()
    tank = DAMS // 4 + 1 + litter % (TANKS - DAMS // 4)
    left = None if growing else born + timedelta(days=151)
    session.add(Placement(animal_id=animal, tank_id=tank, entered_on=born, left_on=left))
    for week in range(0, min((TODAY - born).days // 28, 4)):
        day = born + timedelta(weeks=4 * week)
        session.add(Measurement(animal_id=animal, measured_on=day, width_mm=120 + 8 * week))
