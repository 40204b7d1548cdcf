"""Isolation: whose clock runs until when, what shares its water, who left early and why."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.acts.tanks.loads import read_house_today
from colony.notation.cautions import OWN_TOOLS
from colony.planning.tanks.isolation import mature_from
from colony.planning.tanks.limits import is_isolated
from colony.records import Animal, Placement, System, Tank
from colony.refusals.tanks import LeavesIsolationEarly
from colony.store.readers.tanks.house import TankRow, intake_systems
from colony.store.readers.tanks.isolation import read_clocks
from colony.store.settings import read_settings

EARLY = "left isolation early: "
"""How the reason begins that is kept with a move or an end before its time."""


@dataclass(frozen=True)
class IsolationLine:
    """One intake system: who is in it, since and until when, and with whom it shares water."""

    system: str
    tanks: list[str]
    animals: list[str]
    since: date
    until: date
    days_left: int
    restarted_by: list[str]
    shares_water_with: list[str]


@dataclass(frozen=True)
class MaturingLine:
    """A system whose filter is still maturing, and who is in it already."""

    system: str
    started: date
    mature_from: date
    days_left: int
    animals: list[str]


@dataclass(frozen=True)
class EarlyLeave:
    """An animal that left isolation before its clock had run out, whereto and why.

    `to` is a tank, or how it left the house (sold, gone).
    """

    tag: str
    on: date
    to: str
    why: str


@dataclass(frozen=True)
class Isolation:
    """Every clock that runs in the house."""

    isolated: tuple[IsolationLine, ...]
    maturing: tuple[MaturingLine, ...]
    left_early: tuple[EarlyLeave, ...]
    cautions: tuple[str, ...] = (OWN_TOOLS,)


def isolation_now(session: Session, *, today: date) -> Isolation:
    """The clocks of arrivals and of new filters, and the leaves before time of the last year."""
    return Isolation(
        isolated=tuple(_isolated(session, today)),
        maturing=tuple(_maturing(session, today)),
        left_early=tuple(_left_early(session, today - timedelta(days=365))),
    )


def _isolated(session: Session, today: date) -> list[IsolationLine]:
    house = read_house_today(session, today)
    lines = []
    days = read_settings(session).isolation_days
    for system, clock in read_clocks(session, intake_systems(house.tanks), days, today).items():
        shared = [tank for tank in house.tanks.values() if tank.plan.system == system]
        intake = [tank for tank in shared if tank.plan.role == "intake"]
        lines.append(
            IsolationLine(
                system=system,
                tanks=[tank.plan.code for tank in intake],
                animals=[animal.tag for tank in intake for animal in house.in_tank(tank.id)],
                since=clock.since,
                until=clock.until,
                days_left=max(0, (clock.until - today).days),
                restarted_by=list(clock.restarted_by),
                shares_water_with=[
                    tank.plan.code
                    for tank in shared
                    if not tank.plan.isolates and tank.plan.role != "intake"
                ],
            )
        )
    return sorted(lines, key=lambda line: (line.until, line.system))


def _maturing(session: Session, today: date) -> list[MaturingLine]:
    weeks = read_settings(session).nursery_weeks
    house = read_house_today(session, today)
    lines = []
    for system in session.exec(select(System).where(col(System.started).is_not(None))):
        assert system.started is not None  # noqa: S101 - the query asked for it
        ready = mature_from(system.started, weeks)
        if ready > today:
            animals = [
                animal.tag
                for tank in house.tanks.values()
                if tank.plan.system == system.name
                for animal in house.in_tank(tank.id)
            ]
            days_left = (ready - today).days
            lines.append(MaturingLine(system.name, system.started, ready, days_left, animals))
    return sorted(lines, key=lambda line: (line.mature_from, line.system))


def reason_to_leave(
    session: Session, tags: Sequence[str], *, to: TankRow | None, why: str | None, today: date
) -> str | None:
    """The reason to keep with a move or an end; one that leaves isolation early says so.

    `to` is the tank the animals go to; None where they leave the house alive.

    Raises
    ------
    LeavesIsolationEarly
        They would go to water outside isolation before its end, and no reason is given.
    """
    if to is not None and to.plan.isolates:
        return why
    house = read_house_today(session, today)
    found = [animal for here in house.occupants.values() for animal in here if animal.tag in tags]
    early = [animal for animal in found if is_isolated(animal, today)]
    if not early:
        return why
    if not why:
        until = max(animal.isolated_until for animal in early if animal.isolated_until)
        raise LeavesIsolationEarly([animal.tag for animal in early], until)
    return EARLY + why


def _left_early(session: Session, since: date) -> list[EarlyLeave]:
    """Moves and ends whose reason says that they were early."""
    moves = (
        select(col(Animal.tag), col(Placement.entered_on), col(Tank.code), col(Placement.why))
        .join(Animal, col(Placement.animal_id) == col(Animal.id))
        .join(Tank, col(Placement.tank_id) == col(Tank.id))
        .where(col(Placement.why).startswith(EARLY), col(Placement.entered_on) >= since)
    )
    ends = select(
        col(Animal.tag), col(Animal.ended_on), col(Animal.status), col(Animal.ended_why)
    ).where(col(Animal.ended_why).startswith(EARLY), col(Animal.ended_on) >= since)
    found = [
        EarlyLeave(tag, on, to, (why or "").removeprefix(EARLY))
        for query in (moves, ends)
        for tag, on, to, why in session.exec(query)
        if on is not None
    ]
    return sorted(found, key=lambda move: (move.on, move.tag), reverse=True)
