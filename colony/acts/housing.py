"""The tanks in the weeks to come: how full each will be, and which moves keep the limits."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session

from colony.acts.due import due_litters
from colony.acts.placing import limits_of
from colony.acts.ready import ready_pups
from colony.acts.work import MoveLine, PlannedMove, accept_moves
from colony.planning.housing_plan import HousingPlan, plan_moves
from colony.planning.outlook import outlook
from colony.store.lookup import seek_animal
from colony.store.readers.swimmers import Birth, Swimmers, read_swimmers
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
            tank=one.tank,
            role=one.role,
            load_limit=one.limit,
            loads=[None if load is None else round(load, 4) for load in one.loads],
            animals=list(one.animals),
            breaks=[
                {"day": breach.day, "rule": breach.reason.rule, "why": breach.reason.sentence}
                for breach in one.breaches
            ],
        )
        for one in outlook(seen.tanks, seen.swimmers, limits, today=today, weeks=weeks)
    ]


def plan_tanks(
    session: Session, *, weeks: int, sales_per_week: float | None = None, today: date
) -> HousingPlan:
    """Propose the moves that keep every limit: exact for the next week, rolling after it."""
    seen = _read(session, sales_per_week, today)
    limits = limits_of(read_settings(session))
    return plan_moves(seen.tanks, seen.swimmers, limits, today=today, weeks=weeks)


def accept_plan(session: Session, *, plan: HousingPlan, today: date) -> list[MoveLine]:
    """Put the moves of the first week on the work list; pups not born yet have no tag to move."""
    moves = [
        PlannedMove(move.tag, move.to_tank, move.by, move.why)
        for week in plan.weeks[:1]
        for move in week.moves
        if seek_animal(session, move.tag) is not None
    ]
    return accept_moves(session, moves=moves, today=today)


def _read(session: Session, sales_per_week: float | None, today: date) -> Swimmers:
    births = [
        Birth(due.dam, max(due.likely, today), due.tank)
        for due in due_litters(session, today=today)
        if due.tank is not None and due.state != "possible"
    ]
    ready = ready_pups(session, everybody=True, today=today)
    return read_swimmers(
        session, births=births, ready=ready, sales_per_week=sales_per_week, today=today
    )
