"""A small house to be careful with."""

from collections.abc import Callable
from datetime import date
from typing import Any

from colony.acts.animals.animals import add_animal, edit_animal
from colony.acts.litters.record import LitterRecorded, record_litter
from colony.acts.pairings.pairings import start_pairing
from colony.acts.pups.measure import measure
from colony.acts.tanks.tanks import add_tank, move, set_system
from colony.notation.days import Day
from colony.notation.fields.facts import AnimalFacts
from colony.notation.pups import parse_pups
from colony.store.book import Book
from colony.store.journal.rows import kept_tables

TODAY = date(2026, 3, 9)


class House:
    """A book, and acts in it that a test writes as one line each."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def do(self, name: str, act: Callable[..., Any], /, **facts: Any) -> Any:  # noqa: ANN401 - as the act has it
        """Do one act in a transaction of its own."""
        with self.book.act(name) as session:
            return act(session, **facts)

    def tank(self, code: str) -> None:
        """A tank of 240 x 120 cm."""
        self.do("tank system", set_system, name="Main")
        size = {"length_mm": 2400, "width_mm": 1200}
        self.do("tank add", add_tank, code=code, system="Main", role="breeding", **size)

    def animal(self, tag: str, sex: str = "U", tank: str | None = None, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """An animal born in 2020."""
        known = AnimalFacts(sex=sex, born=Day(date(2020, 1, 1), "year"), **facts)
        self.do("animal add", add_animal, tag=tag, facts=known, tank=tank, today=TODAY)

    def edit(self, tag: str, /, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """Mend facts of an animal."""
        self.do("animal edit", edit_animal, tag=tag, facts=AnimalFacts(**facts), today=TODAY)

    def pair(self, dam: str, *sires: str, on: date = date(2025, 6, 1)) -> None:
        """A pairing long enough ago for a litter today."""
        self.do("pairing start", start_pairing, dam=dam, sires=sires, on=on, today=TODAY)

    def litter(self, dam: str, pups: str, born: date = date(2026, 1, 10)) -> LitterRecorded:
        """A litter of the males of her pairing."""
        recorded: LitterRecorded = self.do(
            "litter record", record_litter, dam=dam, pups=parse_pups(pups), born=born, today=TODAY
        )
        return recorded

    def measure(self, tag: str, width_mm: int, on: date = TODAY) -> None:
        """A disc width."""
        self.do("pup measure", measure, tag=tag, width_mm=width_mm, on=on, anyway=True, today=TODAY)

    def move(self, tag: str, tank: str, on: date = TODAY) -> None:
        """One animal into another tank."""
        self.do("tank move", move, tags=[tag], tank=tank, on=on, anyway=True, today=TODAY)


def furnished(book: Book) -> House:
    """Two tanks, a female and two males."""
    house = House(book)
    house.tank("B1")
    house.tank("B2")
    house.animal("Alma", "F", "B1")
    house.animal("Bruno", "M", "B1")
    house.animal("Caro", "M")
    return house


def rows_of(book: Book) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table but the journal, in the order of their keys."""
    with book.reading() as session:
        return {
            table.name: sorted(tuple(row) for row in session.connection().execute(table.select()))
            for table in kept_tables()
        }
