"""Put an animal into a tank from a day on, within the limits of the tank."""

from collections.abc import Sequence
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_ended, refuse_future
from colony.acts.tanks.loads import limits_of
from colony.planning.tanks.limits import LimitBroken, why_not
from colony.planning.tanks.load import Occupant
from colony.records import Animal, Placement, Tank
from colony.refusals.tanks import AlreadyInTank, MoveBeforeLast, TankRetired
from colony.store.lookup import find_tank
from colony.store.readers.tanks.house import TanksOnDay
from colony.store.settings import read_settings


def place(
    session: Session, animal: Animal, code: str, *, on: date, why: str | None = None, today: date
) -> Placement:
    """Put one animal into a tank from a day on, ending where it was before.

    A second move on one day replaces the first: nobody is in two tanks on a day.

    Raises
    ------
    NoSuchTank, TankRetired, NotHere, NotYet, AlreadyInTank, MoveBeforeLast
    """
    tank = find_usable_tank(session, code)
    refuse_ended(animal, "be moved")
    refuse_future(f"The move of {animal.tag}", on, today)
    refuse_before_life(animal, on)
    last = session.exec(
        select(Placement)
        .where(Placement.animal_id == animal.id)
        .order_by(col(Placement.entered_on).desc())
    ).first()
    assert tank.id is not None and animal.id is not None  # noqa: S101, PT018 - both are in the book
    if last is None or (last.left_on is not None and last.left_on <= on):
        new = Placement(animal_id=animal.id, tank_id=tank.id, entered_on=on, why=why)
        return _enter(session, new)
    placement = _move_on(session, animal, last, tank, on)
    placement.why = why or placement.why
    return _enter(session, placement)


def find_usable_tank(session: Session, code: str) -> Tank:
    """The tank of a code, if it is in use."""
    tank = find_tank(session, code)
    if tank.retired_on is not None:
        raise TankRetired(tank.code, tank.retired_on)
    return tank


def reasons_against(
    session: Session, house: TanksOnDay, tank: Tank, newcomers: Sequence[Occupant], today: date
) -> tuple[LimitBroken, ...]:
    """Why these animals may not join those who are in the tank."""
    assert tank.id is not None  # noqa: S101 - it was found in the book
    coming = {newcomer.tag for newcomer in newcomers}
    residents = [occupant for occupant in house.in_tank(tank.id) if occupant.tag not in coming]
    limits = limits_of(read_settings(session))
    return why_not(house.tanks[tank.id].plan, residents, newcomers, limits, today=today)


def _move_on(session: Session, animal: Animal, last: Placement, tank: Tank, on: date) -> Placement:
    if last.tank_id == tank.id:
        raise AlreadyInTank(animal.tag, tank.code)
    if on < last.entered_on or last.left_on is not None:
        raise MoveBeforeLast(animal.tag, on, last.left_on or last.entered_on)
    assert tank.id is not None and animal.id is not None  # noqa: S101, PT018 - both are in the book
    if on == last.entered_on:
        last.tank_id = tank.id
        return _enter(session, last)
    last.left_on = on
    session.add(last)
    session.flush()
    return _enter(session, Placement(animal_id=animal.id, tank_id=tank.id, entered_on=on))


def _enter(session: Session, placement: Placement) -> Placement:
    session.add(placement)
    session.flush()
    return placement
