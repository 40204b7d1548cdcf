"""What the weeks before a death left in the book: tanks, company, water and food."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.notation.house import reading_name, say_reading, say_volume
from colony.records import (
    Animal,
    Feeding,
    Food,
    FoodBatch,
    Placement,
    System,
    Tank,
    TankFeeding,
    WaterChange,
    WaterTest,
)


@dataclass(frozen=True)
class StayLine:
    """A tank that it lived in, from a day to a day, and who was with it."""

    tank: str
    system: str
    entered_on: date
    left_on: date | None
    company: list[str]


@dataclass(frozen=True)
class Dated:
    """Something that happened on a day, in words."""

    on: date
    what: str


@dataclass(frozen=True)
class Span:
    """Days in one tank, cut to the weeks that are looked at; `last` is the last day there."""

    tank: str
    tank_id: int
    system: str
    system_id: int
    entered_on: date
    left_on: date | None
    first: date
    last: date


def spans_of(session: Session, animal: Animal, since: date) -> list[Span]:
    """The tanks that an animal was in since a day, one after another."""
    query = (
        select(Placement, Tank, col(System.name))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .join(System, col(Tank.system_id) == col(System.id))
        .where(
            Placement.animal_id == animal.id,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > since),
        )
        .order_by(col(Placement.entered_on))
    )
    spans = []
    for row, tank, system in session.exec(query):
        last = row.left_on - timedelta(days=1) if row.left_on else last_day(animal)
        spans.append(
            Span(
                tank=tank.code,
                tank_id=row.tank_id,
                system=system,
                system_id=tank.system_id,
                entered_on=row.entered_on,
                left_on=row.left_on,
                first=max(row.entered_on, since),
                last=last,
            )
        )
    return spans


def stay_of(session: Session, animal: Animal, span: Span) -> StayLine:
    """One stay, and the company it had."""
    query = (
        select(Animal.tag)
        .join(Placement, col(Placement.animal_id) == col(Animal.id))
        .where(
            Placement.tank_id == span.tank_id,
            Placement.animal_id != animal.id,
            Placement.entered_on <= span.last,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > span.first),
        )
        .order_by(col(Animal.id))
    )
    company = list(dict.fromkeys(session.exec(query)))
    return StayLine(span.tank, span.system, span.entered_on, span.left_on, company)


def moves_nearby(session: Session, animal: Animal, spans: list[Span], since: date) -> list[Dated]:
    """Who came into its tanks while it was there."""
    found = []
    for span in spans:
        query = (
            select(col(Animal.tag), col(Placement.entered_on))
            .join(Placement, col(Placement.animal_id) == col(Animal.id))
            .where(
                Placement.tank_id == span.tank_id,
                Placement.animal_id != animal.id,
                col(Placement.entered_on).between(max(span.first, since), span.last),
            )
        )
        found += [Dated(on, f"{tag} came into {span.tank}") for tag, on in session.exec(query)]
        found += [Dated(span.entered_on, f"{animal.tag} came into {span.tank}")]
    return sorted(found, key=lambda move: (move.on, move.what))


def water_of(session: Session, spans: list[Span], since: date) -> list[Dated]:
    """Tests and changes of the water that it was in."""
    found = []
    for span in spans:
        days = (max(span.first, since), span.last)
        tests = select(WaterTest).where(
            WaterTest.system_id == span.system_id, col(WaterTest.tested_on).between(*days)
        )
        changes = select(WaterChange).where(
            WaterChange.system_id == span.system_id, col(WaterChange.changed_on).between(*days)
        )
        found += [
            Dated(
                test.tested_on,
                f"{span.system}: {reading_name(test.parameter)} {say_reading(test.parameter, test.value)}",
            )
            for test in session.exec(tests)
        ]
        found += [
            Dated(change.changed_on, f"{span.system}: {say_volume(change.litres)} changed")
            for change in session.exec(changes)
        ]
    return sorted(set(found), key=lambda event: (event.on, event.what))


def food_of(session: Session, spans: list[Span], since: date) -> list[Dated]:
    """What its tanks were offered, from which batch."""
    found = []
    for span in spans:
        query = (
            select(TankFeeding, col(Food.name), col(FoodBatch.code), col(FoodBatch.expires))
            .join(Food, col(TankFeeding.food_id) == col(Food.id))
            .join(FoodBatch, col(TankFeeding.batch_id) == col(FoodBatch.id), isouter=True)
            .where(
                TankFeeding.tank_id == span.tank_id,
                col(TankFeeding.fed_on).between(max(span.first, since), span.last),
            )
        )
        for row, food, code, expires in session.exec(query):
            of_batch = f", batch {code} (expires {expires or 'unknown'})" if code else ""
            found.append(Dated(row.fed_on, f"{span.tank}: {food}{of_batch}, took {row.taken}"))
    return sorted(found, key=lambda meal: meal.on)


def refused_by(session: Session, animal: Animal, since: date) -> list[Dated]:
    """What it refused itself."""
    query = (
        select(Feeding)
        .where(
            Feeding.animal_id == animal.id,
            col(Feeding.took).is_(False),
            Feeding.fed_on >= since,
        )
        .order_by(col(Feeding.fed_on))
    )
    return [Dated(meal.fed_on, f"refused {meal.food}") for meal in session.exec(query)]


def last_day(animal: Animal) -> date:
    """The day of an animal's end."""
    assert animal.ended_on is not None  # noqa: S101 - the book holds an end to its day
    return animal.ended_on
