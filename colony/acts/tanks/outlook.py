"""The tanks in the weeks to come: how full each will be, and which moves keep the limits."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session

from colony.acts.litters.due import due_litters
from colony.acts.pups.growth_curves import tried_with_curves
from colony.acts.tanks.loads import limits_of
from colony.acts.tanks.moves import MoveLine, PlannedMove, accept_moves, clear_moves
from colony.planning.tanks.occupancy import GROWING_ROLES
from colony.planning.tanks.outlook import outlook
from colony.planning.tanks.plan import HousingPlan, plan_moves
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.pups.growing import read_pups
from colony.store.readers.pups.growth import read_growth
from colony.store.readers.tanks.swimmers import Birth, Colony, Swimmers, read_leaving, read_swimmers
from colony.store.settings import read_settings


@dataclass(frozen=True)
class TankAhead:
    """One tank week by week: load, headcount, and the first day that each limit breaks."""

    tank: str
    role: str
    load_limit: float
    loads: list[float | None]
    animals: list[int]
    breaks: list[dict[str, Any]]


def tank_outlook(
    session: Session, *, weeks: int, sales_per_week: float | None = None, today: date
) -> list[TankAhead]:
    """Look ahead with growth, due litters and expected sales; nobody is moved."""
    seen = _read(session, sales_per_week, today)
    limits = limits_of(read_settings(session))
    return [
        TankAhead(
            tank=tank.tank,
            role=tank.role,
            load_limit=tank.limit,
            loads=[None if load is None else round(load, 4) for load in tank.loads],
            animals=list(tank.animals),
            breaks=[
                {"day": breach.day, "rule": breach.reason.rule, "why": breach.reason.sentence}
                for breach in tank.breaches
            ],
        )
        for tank in outlook(seen.tanks, seen.swimmers, limits, today=today, weeks=weeks)
    ]


def plan_tanks(
    session: Session, *, weeks: int, sales_per_week: float | None = None, today: date
) -> HousingPlan:
    """Propose the moves that keep every limit: exact for the next week, rolling after it."""
    seen = _read(session, sales_per_week, today)
    limits = limits_of(read_settings(session))
    return plan_moves(seen.tanks, seen.swimmers, limits, today=today, weeks=weeks)


def accept_plan(session: Session, *, plan: HousingPlan, today: date) -> list[MoveLine]:
    """Put the moves of the first week on the work list; pups not born yet cannot be moved.

    A plan starts from where everybody is now, and what is left of an older one could break its
    limits: moves of growing animals that are still open are dropped.
    """
    clear_moves(session, roles=GROWING_ROLES, today=today)
    return accept_moves(session, moves=moves_to_accept(plan), today=today)


def moves_to_accept(plan: HousingPlan) -> list[PlannedMove]:
    """The moves of the first week of a plan that can be done by hand."""
    return [
        PlannedMove(move.tag, move.to_tank, move.by, move.why)
        for week in plan.weeks[:1]
        for move in week.moves
        if not move.expected
    ]


def _read(session: Session, sales_per_week: float | None, today: date) -> Swimmers:
    herd, lives = read_herd(session), read_lives(session)
    growth = read_growth(session, herd, lives, today)
    ready = tried_with_curves(read_pups(session, lives, today), growth, lives, today)
    return read_swimmers(
        session,
        Colony(herd, lives, growth),
        births=_births(session, today),
        leaving=read_leaving(session, ready, sales_per_week, today),
        today=today,
    )


def _births(session: Session, today: date) -> Iterable[Birth]:
    """The litters to come, in their nurseries; without one the pups lie beside their dam."""
    for due in due_litters(session, today=today):
        tank = due.nursery_tank or due.tank
        if tank is not None and due.state != "possible":
            yield Birth(due.dam, max(due.likely, today), tank)
