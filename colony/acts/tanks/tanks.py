"""Tanks and systems: make them, move animals."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session

from colony.acts.animals.days import refuse_ended
from colony.acts.animals.guards import Decision, guard, target_of
from colony.acts.tanks.isolation import reason_to_leave
from colony.acts.tanks.loads import read_house_today
from colony.acts.tanks.moves import tick_move
from colony.acts.tanks.placing import find_usable_tank, place, reasons_against
from colony.notation.fields.facts import SystemFacts, TankFacts
from colony.notation.fields.tanks import TANK_SIZES
from colony.planning.guards.judge import Proposal
from colony.planning.guards.table import MOVE
from colony.planning.tanks.load import Occupant
from colony.records import Animal, System, Tank
from colony.records.rules import broken
from colony.refusals.tanks import AlreadyInTank, TankCodeTaken, TankDoesNotFit, TankShape
from colony.store.journal.journal import tell
from colony.store.lookup import find_animals, find_system, seek_system, seek_tank
from colony.store.readers.tanks.house import TanksOnDay


@dataclass(frozen=True)
class Moved:
    """Animals that now swim in a tank, and what was overridden."""

    tank: str
    moved: tuple[str, ...]
    on: date
    warnings: tuple[str, ...]


def set_system(session: Session, /, *, name: str, **facts: Any) -> System:  # noqa: ANN401 - the facts of a system
    """Make a system of shared water, or correct one; `facts` are those of `SYSTEM_FACTS`."""
    system = seek_system(session, name) or System(name=name)
    for column, value in SystemFacts(**facts).columns().items():
        setattr(system, column, value)
    session.add(system)
    session.flush()
    tell(session, f"system {name} was set")
    return system


def add_tank(session: Session, /, *, code: str, system: str, role: str, **facts: Any) -> Tank:  # noqa: ANN401 - the facts of a tank
    """Make a tank on a system; `facts` are the others of `TANK_FACTS`.

    Raises
    ------
    TankCodeTaken, NoSuchSystem, TankShape
    """
    tank_facts = TankFacts(code=code, system=system, role=role, **facts)
    if seek_tank(session, code) is not None:
        raise TankCodeTaken(code)
    sizes = {field.name: tank_facts.get(field.name) for field in TANK_SIZES}
    if wrong := broken(Tank, **sizes):
        raise TankShape(wrong)
    home = find_system(session, system)
    tank = Tank(**tank_facts.columns(system=home.id))
    session.add(tank)
    session.flush()
    tell(session, f"tank {code} was added on {home.name}")
    return tank


def move(
    session: Session,
    *,
    tags: Sequence[str],
    tank: str,
    on: date,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> Moved:
    """Move animals into a tank together; `anyway` overrides its limits, and says which.

    ``litter 26-01`` among the tags is every pup of that litter.

    Out of isolation before its end they go only with a reason, which is kept.

    Raises
    ------
    NoSuchTag, NoSuchTank, TankRetired, NotHere, TankDoesNotFit, AlreadyInTank, MoveBeforeLast,
    LeavesIsolationEarly, StandsAgainst, AnywayNeedsWhy
    """
    target = find_usable_tank(session, tank)
    animals = find_animals(session, tags)
    house = read_house_today(session, today)
    for animal in animals:
        refuse_ended(animal, "be moved")
        if house.tank_of.get(animal.id or 0) == target.id:
            raise AlreadyInTank(animal.tag, target.code)
    coming = [_as_occupant(house, animal) for animal in animals]
    reasons = [reason.sentence for reason in reasons_against(session, house, target, coming, today)]
    if reasons and not anyway:
        raise TankDoesNotFit(target.code, reasons)
    goes_to = house.tanks[target.id or 0]
    proposal = Proposal(MOVE, on, target_of(goes_to))
    said = guard(session, proposal, animals, Decision(anyway=anyway, why=why))
    why = reason_to_leave(
        session, [animal.tag for animal in animals], to=goes_to, why=why, today=today
    )
    for animal in animals:
        placed = place(session, animal, target.code, on=on, why=why, today=today)
        tick_move(session, animal_id=placed.animal_id, tank_id=placed.tank_id, on=on)
    tell(session, f"{', '.join(animal.tag for animal in animals)} moved to {target.code}")
    return Moved(target.code, tuple(animal.tag for animal in animals), on, (*reasons, *said))


def _as_occupant(house: TanksOnDay, animal: Animal) -> Occupant:
    here = house.in_tank(house.tank_of.get(animal.id or 0, 0))
    return next(
        (occupant for occupant in here if occupant.tag == animal.tag), Occupant(animal.tag, None)
    )
