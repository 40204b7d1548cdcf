"""A small invented house to try acts in: three systems, a pair, a litter and an arrival."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Concatenate, ParamSpec, TypeVar

from sqlmodel import Session

from colony.acts.animals.animals import add_animal
from colony.acts.litters.record import record_litter
from colony.acts.tanks.tanks import add_tank, set_system
from colony.notation.fields.facts import AnimalFacts
from colony.notation.pups import parse_pups
from colony.notation.shares import parse_sires
from colony.store.book import Book

TODAY = date(2025, 3, 10)

Facts = ParamSpec("Facts")
Found = TypeVar("Found")


def ago(days: int) -> date:
    """Count days back from the day of the tests."""
    return TODAY - timedelta(days=days)


@dataclass(frozen=True)
class CareHouse:
    """A book to act in: each `do` is one act of its own, each `ask` only reads."""

    book: Book

    def do(
        self,
        act: Callable[Concatenate[Session, Facts], Found],
        *facts: Facts.args,
        **named: Facts.kwargs,
    ) -> Found:
        """Do one act and keep it."""
        with self.book.act("test") as session:
            return act(session, *facts, **named)

    def ask(
        self,
        act: Callable[Concatenate[Session, Facts], Found],
        *facts: Facts.args,
        **named: Facts.kwargs,
    ) -> Found:
        """Read something."""
        with self.book.reading() as session:
            return act(session, *facts, **named)


def care_house(book: Book) -> CareHouse:
    """Begin the house: Alma and Bruno in A1, their five pups in N1, Nova isolated in I1.

    A1 and A2 (empty) are on S1 of 2000 L, N1 on S2 of 1000 L, I1 on Q of 500 L.
    """
    with book.act("test") as session:
        _furnish(session)
    return CareHouse(book)


def _furnish(session: Session) -> None:
    size = {"length_mm": 2400, "width_mm": 1200}
    for system, volume_l in (("S1", 2000), ("S2", 1000), ("Q", 500)):
        set_system(session, name=system, volume_l=volume_l)
    tanks = (("A1", "S1", "breeding"), ("A2", "S1", "grow-out"), ("N1", "S2", "nursery"))
    for order, (code, system, role) in enumerate((*tanks, ("I1", "Q", "intake")), start=1):
        add_tank(session, code=code, system=system, role=role, walking_order=order, **size)
    for tag, sex in (("Alma", "F"), ("Bruno", "M")):
        facts = AnimalFacts(species="leopoldi", sex=sex, arrived=ago(400))
        add_animal(session, tag=tag, facts=facts, tank="A1", today=TODAY)
    record_litter(
        session,
        dam="Alma",
        sires=parse_sires(["Bruno"]),
        born=ago(60),
        pups=parse_pups("3F2M"),
        tank="N1",
        today=TODAY,
    )
    nova = AnimalFacts(species="motoro", sex="F", arrived=ago(5))
    add_animal(session, tag="Nova", facts=nova, tank="I1", today=TODAY)
