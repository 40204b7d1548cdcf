"""What ends when an animal does: its place, its holds, its pairings, what it is kept for."""

from datetime import date, timedelta
from typing import Any

from sqlmodel import Session, col, func, select

from colony.acts.orders.kept import let_go
from colony.records import (
    Animal,
    Feeding,
    Hold,
    Litter,
    LookOver,
    Measurement,
    Pairing,
    PairingSire,
    Placement,
    Tank,
)
from colony.refusals.animals import EndsBeforeLater


def leave_everything(session: Session, animal: Animal, on: date) -> None:
    """End what is open: its last day in the tank is the day of its end."""
    after = on + timedelta(days=1)
    for placement in session.exec(
        select(Placement).where(Placement.animal_id == animal.id, col(Placement.left_on).is_(None))
    ):
        placement.left_on = max(after, placement.entered_on + timedelta(days=1))
        session.add(placement)
    for hold in session.exec(
        select(Hold).where(Hold.animal_id == animal.id, col(Hold.ended).is_(None))
    ):
        hold.ended = max(on, hold.started)
        session.add(hold)
    for pairing in _without_partner(session, animal):
        pairing.ended = max(on, pairing.started)
        session.add(pairing)
    let_go(session, animal.id or 0, on)
    session.flush()


def _without_partner(session: Session, animal: Animal) -> list[Pairing]:
    """The running pairings of a dam, or those of a sire who was the last male in them."""
    running = col(Pairing.ended).is_(None)
    of_dam = select(Pairing).where(Pairing.dam_id == animal.id, running)
    of_sire = (
        select(Pairing)
        .join(PairingSire, col(PairingSire.pairing_id) == col(Pairing.id))
        .where(PairingSire.sire_id == animal.id, running)
    )
    others = (
        select(PairingSire.pairing_id)
        .join(Animal, col(PairingSire.sire_id) == col(Animal.id))
        .where(col(Animal.status) == "present", col(Animal.id) != animal.id)
    )
    alone = of_sire.where(col(Pairing.id).not_in(others))
    return [*session.exec(of_dam), *session.exec(alone)]


def give_back(session: Session, animal: Animal, ended_on: date) -> str | None:
    """Put an animal that did not end after all back into the tank that it left by its end.

    The code of the tank; None where it was in none, or the tank is out of use since.
    """
    last = session.exec(
        select(Placement)
        .where(Placement.animal_id == animal.id)
        .order_by(col(Placement.entered_on).desc())
    ).first()
    if last is None or last.left_on is None:
        return None
    tank = session.get_one(Tank, last.tank_id)
    by_its_end = max(ended_on, last.entered_on) + timedelta(days=1) == last.left_on
    if not by_its_end or tank.retired_on is not None:
        return None
    last.left_on = None
    session.add(last)
    session.flush()
    return tank.code


_EVENTS: tuple[tuple[str, Any, Any], ...] = (
    ("measured", Measurement.animal_id, Measurement.measured_on),
    ("fed", Feeding.animal_id, Feeding.fed_on),
    ("held", Hold.animal_id, Hold.started),
    ("moved", Placement.animal_id, Placement.entered_on),
    ("paired", Pairing.dam_id, Pairing.started),
    ("seen by a look-over", LookOver.animal_id, LookOver.seen_on),
    ("a mother", Litter.dam_id, Litter.born),
)
"""What is done with an animal on a day: the words for it, whose it is, and when."""


def refuse_later_events(session: Session, animal: Animal, on: date) -> None:
    """Refuse an end before what was written of a later day.

    Raises
    ------
    EndsBeforeLater
    """
    later = [
        (day, what)
        for what, owner, when in _EVENTS
        for day in session.exec(
            select(func.max(col(when))).where(col(owner) == animal.id, col(when) > on)
        )
        if day is not None
    ]
    if later:
        raise EndsBeforeLater(animal.tag, on, [f"{what} on {day}" for day, what in sorted(later)])
