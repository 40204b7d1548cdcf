"""Feeding a tank: what it was offered, how much was taken, and who was seen to take or refuse it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_future
from colony.acts.animals.guards import refuse_doubts
from colony.acts.care.foods import find_batch, find_food, has_expired, open_batches
from colony.acts.care.ticks import note_done
from colony.acts.pups.measure import feed
from colony.planning.guards.plausible import doubts_of_meal
from colony.records import Animal, Food, FoodBatch, Measurement, Placement, Tank, TankFeeding
from colony.refusals.care import NobodyToFeed, NotInThisTank
from colony.store.journal.journal import tell
from colony.store.lookup import find_tank
from colony.store.readers.animals.herd import read_last_widths_mm


@dataclass(frozen=True)
class Seen:
    """Who was seen: tags that took the food, tags that refused it, or that everybody took it."""

    took: Sequence[str] = ()
    refused: Sequence[str] = ()
    everyone_took: bool = False


@dataclass(frozen=True)
class Fed:
    """A feeding that was written down; `took` and `refused` now stand at those animals."""

    tank: str
    food: str
    batch: str | None
    offered_g: int | None
    taken: str
    on: date
    took: tuple[str, ...]
    refused: tuple[str, ...]
    warnings: tuple[str, ...]


@dataclass(frozen=True)
class FeedingLine:
    """One feeding of a tank in the list."""

    on: date
    tank: str
    food: str
    batch: str | None
    offered_g: int | None
    taken: str
    note: str | None


def feed_tank(
    session: Session,
    *,
    tank: str,
    food: str,
    taken: str = "all",
    offered_g: int | None = None,
    batch: str | None = None,
    seen: Seen = Seen(),
    same_meal: bool = False,
    on: date,
    note: str | None = None,
    anyway: bool = False,
    today: date,
) -> Fed:
    """Write down what a tank was offered and took, and tick its feeding off.

    An animal's own acceptance is written only where it is certain: it was named, it is alone
    in the tank, everybody was seen to take it, or nobody took anything. A second food of the
    `same_meal` does not tick the feeding off again.

    Raises
    ------
    NoSuchTank, NoSuchFood, NoSuchBatch, NobodyToFeed, NotInThisTank, NotYet, HardlyMeant
    """
    refuse_future("A feeding", on, today)
    home, meal = find_tank(session, tank), find_food(session, food)
    residents = _residents(session, home, on)
    if not residents:
        raise NobodyToFeed(home.code, on)
    doubts = doubts_of_meal(home.code, offered_g, _widths_mm(session, residents))
    said = refuse_doubts(doubts, anyway=anyway)
    took, refused = _certain(home.code, residents, taken, seen)
    delivery = find_batch(session, meal, batch) if batch else _next_batch(session, meal, on)
    assert home.id is not None and meal.id is not None  # noqa: S101, PT018 - both are in the book
    session.add(
        TankFeeding(
            tank_id=home.id,
            fed_on=on,
            food_id=meal.id,
            batch_id=delivery.id if delivery else None,
            offered_g=offered_g,
            taken=taken,
            note=note,
        )
    )
    for tag in (*took, *refused):
        feed(session, tag=tag, food=meal.name, took=tag in took, on=on, today=today)
    if not same_meal:
        note_done(session, task="feeding", place=home.code, on=on)
    tell(session, f"{home.code} was offered {meal.name} and took {taken}")
    warnings = [*said]
    if delivery and has_expired(delivery, on):
        expired = f"Batch {delivery.code} of {meal.name} expired on {delivery.expires}"
        warnings.append(f"{expired}: do not feed it on.")
    return Fed(
        tank=home.code,
        food=meal.name,
        batch=delivery.code if delivery else None,
        offered_g=offered_g,
        taken=taken,
        on=on,
        took=took,
        refused=refused,
        warnings=tuple(warnings),
    )


def list_feedings(
    session: Session, *, tank: str | None = None, since: date | None = None
) -> list[FeedingLine]:
    """Feedings of all tanks, or of one, the last first."""
    query = (
        select(TankFeeding, Tank.code, Food.name, FoodBatch.code)
        .join(Tank, col(TankFeeding.tank_id) == col(Tank.id))
        .join(Food, col(TankFeeding.food_id) == col(Food.id))
        .join(FoodBatch, col(TankFeeding.batch_id) == col(FoodBatch.id), isouter=True)
        .order_by(col(TankFeeding.fed_on).desc(), col(TankFeeding.id).desc())
    )
    if tank is not None:
        query = query.where(TankFeeding.tank_id == find_tank(session, tank).id)
    if since is not None:
        query = query.where(TankFeeding.fed_on >= since)
    return [
        FeedingLine(row.fed_on, code, food, batch, row.offered_g, row.taken, row.note)
        for row, code, food, batch in session.exec(query)
    ]


def _residents(session: Session, tank: Tank, on: date) -> list[str]:
    query = (
        select(Animal.tag)
        .join(Placement, col(Placement.animal_id) == col(Animal.id))
        .where(
            Placement.tank_id == tank.id,
            Animal.status == "present",
            Placement.entered_on <= on,
            col(Placement.left_on).is_(None) | (col(Placement.left_on) > on),
        )
        .order_by(col(Animal.id))
    )
    return list(session.exec(query))


def _widths_mm(session: Session, tags: Sequence[str]) -> list[float | None]:
    """The last disc width of each; None where it was never measured."""
    query = select(Animal.id).where(col(Animal.tag).in_(tags))
    ids = [animal_id for animal_id in session.exec(query) if animal_id is not None]
    known = read_last_widths_mm(session, col(Measurement.animal_id).in_(ids))
    return [known[animal_id][1] if animal_id in known else None for animal_id in ids]


def _certain(
    tank: str, residents: Sequence[str], taken: str, seen: Seen
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Who certainly took the food and who certainly refused it."""
    by_fold = {tag.casefold(): tag for tag in residents}
    for tag in (*seen.took, *seen.refused):
        if tag.casefold() not in by_fold:
            raise NotInThisTank(tag, tank)
    refused = {by_fold[tag.casefold()] for tag in seen.refused}
    took = {by_fold[tag.casefold()] for tag in seen.took} - refused
    rest = [tag for tag in residents if tag not in took | refused]
    if taken == "none":
        return (), tuple(residents)
    if seen.everyone_took or (len(residents) == 1 and taken == "all"):
        took.update(rest)
    return tuple(t for t in residents if t in took), tuple(t for t in residents if t in refused)


def _next_batch(session: Session, food: Food, on: date) -> FoodBatch | None:
    """The open batch that expires first and is still good; an expired one only if none is."""
    there = [batch for batch in open_batches(session, food) if batch.received <= on]
    good = [batch for batch in there if not has_expired(batch, on)]
    return next(iter(good or there), None)
