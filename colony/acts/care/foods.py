"""Foods of the house: the list, their batches, and what has expired."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, func, select

from colony.acts.animals.days import refuse_future
from colony.notation.fields.facts import FoodFacts
from colony.notation.near_tags import is_near
from colony.records import Feeding, Food, FoodBatch
from colony.refusals.care import (
    BatchNotThereYet,
    BatchTaken,
    FoodNearAnother,
    NoSuchBatch,
    NoSuchFood,
)
from colony.store.journal.journal import tell


@dataclass(frozen=True)
class BatchLine:
    """One open batch of a food; `expired` tells whether it is past its day."""

    batch: str
    received: date
    expires: date | None
    expired: bool


@dataclass(frozen=True)
class FoodLine:
    """One food of the house and its open batches, the first to expire first."""

    food: str
    protein_percent: float | None
    note: str | None
    batches: tuple[BatchLine, ...]


def set_food(session: Session, /, *, name: str, **facts: Any) -> Food:  # noqa: ANN401 - the facts of a food
    """Add a food to the house's list, or correct what is known of it; `facts` are `FOOD_FACTS`."""
    food = _seek(session, name) or Food(name=name)
    for column, value in FoodFacts(**facts).columns().items():
        setattr(food, column, value)
    session.add(food)
    session.flush()
    tell(session, f"food {food.name} is on the list")
    return food


def refuse_misspelt(session: Session, food: str) -> None:
    """Refuse a food that was never named, where one that was is written nearly so.

    Two ways to write one food would count as two: a pup is ready when it takes several.

    Raises
    ------
    FoodNearAnother
    """
    given = col(Feeding.food)
    if session.exec(select(Feeding.id).where(given == food).limit(1)).first() is not None:
        return
    known = {name.casefold(): name for name in session.exec(select(Food.name))}
    if food in known:
        return
    known |= {name: name for name in session.exec(select(given).distinct())}
    near = [name for fold, name in known.items() if is_near(food, fold)]
    if near:
        raise FoodNearAnother(food, sorted(near))


def add_batch(
    session: Session,
    *,
    food: str,
    code: str,
    received: date,
    expires: date | None = None,
    today: date,
) -> FoodBatch:
    """Write down a delivery of a food.

    Raises
    ------
    NoSuchFood, BatchTaken, NotYet
    """
    refuse_future("A delivery", received, today)
    home = find_food(session, food)
    assert home.id is not None  # noqa: S101 - it was found in the book
    taken = session.exec(
        select(FoodBatch).where(FoodBatch.food_id == home.id, FoodBatch.code == code)
    ).first()
    if taken is not None:
        raise BatchTaken(home.name, code)
    batch = FoodBatch(food_id=home.id, code=code, received=received, expires=expires)
    session.add(batch)
    session.flush()
    tell(session, f"batch {code} of {home.name} came")
    return batch


def finish_batch(session: Session, *, food: str, code: str, on: date, today: date) -> FoodBatch:
    """Write down that a batch is used up or thrown away.

    Raises
    ------
    NoSuchFood, NoSuchBatch, BatchNotThereYet, NotYet
    """
    refuse_future("The end of a batch", on, today)
    batch = find_batch(session, find_food(session, food), code)
    if on < batch.received:
        raise BatchNotThereYet(code, on, batch.received)
    batch.finished_on = on
    session.add(batch)
    session.flush()
    tell(session, f"batch {code} of {food} is finished")
    return batch


def list_foods(session: Session, *, today: date) -> list[FoodLine]:
    """Every food and its open batches."""
    return [
        FoodLine(
            food=food.name,
            protein_percent=food.protein_percent,
            note=food.note,
            batches=tuple(
                BatchLine(b.code, b.received, b.expires, expired=has_expired(b, today))
                for b in open_batches(session, food)
            ),
        )
        for food in session.exec(select(Food).order_by(func.lower(Food.name)))
    ]


def find_food(session: Session, name: str) -> Food:
    """The food of a name, whatever its case; `NoSuchFood` names all."""
    food = _seek(session, name)
    if food is None:
        raise NoSuchFood(name, sorted(session.exec(select(Food.name)).all()))
    return food


def find_batch(session: Session, food: Food, code: str) -> FoodBatch:
    """The open batch of a code; `NoSuchBatch` names those that are open."""
    batches = open_batches(session, food)
    found = next((batch for batch in batches if batch.code.casefold() == code.casefold()), None)
    if found is None:
        raise NoSuchBatch(food.name, code, [batch.code for batch in batches])
    return found


def open_batches(session: Session, food: Food) -> list[FoodBatch]:
    """The batches of a food that are not finished, the first to expire first."""
    rows = session.exec(
        select(FoodBatch).where(FoodBatch.food_id == food.id, col(FoodBatch.finished_on).is_(None))
    ).all()
    return sorted(rows, key=lambda batch: (batch.expires or date.max, batch.received, batch.code))


def has_expired(batch: FoodBatch, on: date) -> bool:
    """Whether a batch is past its day."""
    return batch.expires is not None and batch.expires < on


def _seek(session: Session, name: str) -> Food | None:
    return session.exec(select(Food).where(func.lower(Food.name) == func.lower(name))).first()
