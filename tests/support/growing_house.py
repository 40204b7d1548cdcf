"""An invented house for growing out: a story in a few lines, written by the acts themselves."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

from colony.acts.animals.animals import add_animal
from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.litters.record import record_litter
from colony.acts.pairings.pairings import end_pairing, note_finding, note_sign, start_pairing
from colony.acts.pups.measure import feed, measure
from colony.acts.tanks.tanks import add_tank, set_system
from colony.notation.days import Day
from colony.notation.fields.facts import AnimalFacts
from colony.notation.pups import parse_pups
from colony.notation.shares import parse_sires
from colony.store.book import Book

TODAY = date(2026, 3, 9)


def ago(days: int) -> date:
    """Count days back from the day of the tests."""
    return TODAY - timedelta(days=days)


class GrowingHouse:
    """A book, and a verb for each thing that happens in the house."""

    def __init__(self, book: Book) -> None:
        self.book = book

    def do(self, act: Callable[..., Any], **facts: Any) -> Any:  # noqa: ANN401 - as the act has it
        """Do one act and keep it."""
        with self.book.act(act.__name__) as session:
            return act(session, **facts)

    def ask(self, question: Callable[..., Any], **facts: Any) -> Any:  # noqa: ANN401 - the same
        """Read something."""
        with self.book.reading() as session:
            return question(session, **facts)

    def tank(self, code: str, role: str, length_mm: int = 2000, width_mm: int = 1000) -> None:
        """A tank on a system of its own role."""
        self.do(set_system, name=role)
        size = {"length_mm": length_mm, "width_mm": width_mm}
        self.do(add_tank, code=code, system=role, role=role, **size)

    def animal(self, tag: str, sex: str, tank: str | None = None, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """A grown P. leopoldi."""
        known = AnimalFacts(sex=sex, species="leopoldi", born=Day(date(2019, 1, 1)), **facts)
        self.do(add_animal, tag=tag, facts=known, tank=tank, width_mm=450, today=TODAY)

    def mated(self, dam: str, sire: str, days_ago: int) -> None:
        """A dam and a sire put together, and a copulation seen, so many days ago."""
        self.do(start_pairing, dam=dam, sires=[sire], on=ago(days_ago), today=TODAY)
        self.do(note_sign, dam=dam, kind="copulation", on=ago(days_ago), today=TODAY)

    def separated(self, dam: str, days_ago: int) -> None:
        """A dam taken from her sire."""
        self.do(end_pairing, dam=dam, on=ago(days_ago), today=TODAY)

    def found(self, dam: str, finding: str, days_ago: int = 0) -> None:
        """What was found of a dam."""
        self.do(
            note_finding, dam=dam, finding=finding, method="look", on=ago(days_ago), today=TODAY
        )

    def litter(
        self, dam: str, pups: str, days_ago: int, tank: str | None = None, sire: str = "Bruno"
    ) -> list[str]:
        """A birth so many days ago; the tags of the pups."""
        recorded = self.do(
            record_litter,
            dam=dam,
            sires=parse_sires([sire]),
            born=ago(days_ago),
            pups=parse_pups(pups),
            tank=tank,
            today=TODAY,
        )
        return list(recorded.pups)

    def measure(self, tag: str, width_mm: int, days_ago: int = 0) -> None:
        """A disc width."""
        self.do(measure, tag=tag, width_mm=width_mm, on=ago(days_ago), anyway=True, today=TODAY)

    def fed(self, tag: str, days_ago: int, *foods: str) -> None:
        """Foods taken."""
        for food in foods or ("worms", "prawn"):
            self.do(feed, tag=tag, food=food, took=True, on=ago(days_ago), today=TODAY)

    def due(self) -> dict[str, DueLitter]:
        """Who is due, by dam."""
        return {one.dam: one for one in self.ask(due_litters, today=TODAY)}


def furnished(book: Book) -> GrowingHouse:
    """Two dams and a sire in B1, nurseries P1 and P2, grow-out tanks G1 and G2."""
    house = GrowingHouse(book)
    house.tank("B1", "breeding", 4000, 2000)
    for code in ("P1", "P2"):
        house.tank(code, "nursery")
    for code in ("G1", "G2"):
        house.tank(code, "grow-out")
    for tag, sex in (("Alma", "F"), ("Bella", "F"), ("Bruno", "M")):
        house.animal(tag, sex, "B1")
    return house
