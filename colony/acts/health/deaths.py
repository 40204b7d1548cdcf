"""A death on one page: where it lived, its water, food, company and litter in the weeks before."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.acts.health.death_traces import (
    Dated,
    StayLine,
    food_of,
    last_day,
    moves_nearby,
    refused_by,
    spans_of,
    stay_of,
    water_of,
)
from colony.acts.health.look_over import SignLine, list_signs
from colony.acts.health.vet_visits import VetPage, list_visits
from colony.notation.cautions import DEAD_RAY
from colony.records import Animal, Hold, Litter, Placement, Tank
from colony.refusals.health import NotDead
from colony.store.lookup import find_animal

WEEKS_BEFORE = 4
"""How far back a page of death looks; common practice, no source."""


@dataclass(frozen=True)
class DeathLine:
    """One death in the list."""

    tag: str
    on: date
    why: str | None
    age_days: int | None
    litter: str | None
    tank: str | None
    last_seen: date | None = None


@dataclass(frozen=True)
class MateLine:
    """A litter-mate and what became of it."""

    tag: str
    status: str
    ended_on: date | None
    why: str | None


@dataclass(frozen=True)
class DeathPage:
    """Everything on record that could matter to one death."""

    tag: str
    died_on: date
    why: str | None
    born: date | None
    age_days: int | None
    litter: str | None
    since: date
    stays: tuple[StayLine, ...]
    moves_nearby: tuple[Dated, ...]
    water: tuple[Dated, ...]
    food: tuple[Dated, ...]
    refused: tuple[Dated, ...]
    signs: tuple[SignLine, ...]
    holds: tuple[Dated, ...]
    vet_visits: tuple[VetPage, ...]
    litter_mates: tuple[MateLine, ...]
    last_seen: date | None = None
    caution: str = DEAD_RAY


def list_deaths(session: Session, *, since: date | None = None) -> list[DeathLine]:
    """Every death, the last first."""
    query = (
        select(Animal, Litter.code)
        .join(Litter, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .where(Animal.status == "died")
        .order_by(col(Animal.ended_on).desc(), col(Animal.tag))
    )
    if since is not None:
        query = query.where(col(Animal.ended_on) >= since)
    last_tank = dict(
        session.exec(
            select(col(Placement.animal_id), col(Tank.code))
            .join(Tank, col(Placement.tank_id) == col(Tank.id))
            .order_by(col(Placement.entered_on))
        ).all()
    )
    return [
        DeathLine(
            a.tag,
            last_day(a),
            a.ended_why,
            _age(a),
            code,
            last_tank.get(a.id or 0),
            a.last_seen,
        )
        for a, code in session.exec(query)
    ]


def death_page(session: Session, *, tag: str, weeks: int = WEEKS_BEFORE) -> DeathPage:
    """Put on one page what is known of a death and of the weeks before it.

    Raises
    ------
    NoSuchTag, NotDead
    """
    animal = find_animal(session, tag)
    if animal.status != "died":
        raise NotDead(animal.tag, animal.status)
    died = last_day(animal)
    litter = session.get(Litter, animal.litter_id) if animal.litter_id else None
    since = died - timedelta(weeks=weeks)
    spans = spans_of(session, animal, since)
    return DeathPage(
        tag=animal.tag,
        died_on=died,
        why=animal.ended_why,
        born=animal.born,
        age_days=_age(animal),
        litter=litter.code if litter else None,
        since=since,
        stays=tuple(stay_of(session, animal, span) for span in spans),
        moves_nearby=tuple(moves_nearby(session, animal, spans, since)),
        water=tuple(water_of(session, spans, since)),
        food=tuple(food_of(session, spans, since)),
        refused=tuple(refused_by(session, animal, since)),
        signs=tuple(
            sign
            for sign in (
                *list_signs(session, tag=animal.tag, since=since),
                *(s for span in spans for s in list_signs(session, tank=span.tank, since=since)),
            )
            if sign.on <= died
        ),
        holds=tuple(
            Dated(hold.started, f"held: {hold.why}")
            for hold in session.exec(
                select(Hold).where(Hold.animal_id == animal.id).order_by(col(Hold.started))
            )
        ),
        vet_visits=tuple(list_visits(session, tag=animal.tag)),
        litter_mates=tuple(_mates(session, animal)),
        last_seen=animal.last_seen,
    )


def _mates(session: Session, animal: Animal) -> list[MateLine]:
    if animal.litter_id is None:
        return []
    query = (
        select(Animal)
        .where(Animal.litter_id == animal.litter_id, Animal.id != animal.id)
        .order_by(col(Animal.id))
    )
    return [MateLine(a.tag, a.status, a.ended_on, a.ended_why) for a in session.exec(query)]


def _age(animal: Animal) -> int | None:
    known = animal.born is not None and animal.born_precision == "day"
    return (last_day(animal) - animal.born).days if known and animal.born else None
