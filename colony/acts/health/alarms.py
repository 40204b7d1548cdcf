"""The dangers of the day: each subject is asked for what it knows."""

from collections import defaultdict
from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlalchemy import select as columns
from sqlmodel import Session, col, select

from colony.acts.care.headcount import last_headcounts
from colony.acts.health.watch import refusing
from colony.acts.litters.due import DueLitter
from colony.acts.water.bad_values import bad_values
from colony.notation.care import PARAMETERS, WELL
from colony.planning.alarms.alarms import (
    DEATH_DAYS,
    HEADCOUNT_DAYS,
    SIGN_DAYS,
    Alarm,
    TankToday,
    of_birth,
    of_deaths,
    of_drift,
    of_headcount,
    of_isolation,
    of_poorly,
    of_signs,
    of_tank,
    of_water,
    ranked,
    unanswered,
)
from colony.planning.alarms.drift import DRIFTING, drift
from colony.planning.pups.gates import PupFacts
from colony.planning.pups.growth_flags import OffCurve
from colony.records import AlarmAnswer, Animal, Hold, Litter, LookOver, Placement, Tank
from colony.store.readers.animals.lives import Lives
from colony.store.readers.tanks.house import TanksOnDay
from colony.store.readers.water import read_series
from colony.store.settings import BookSettings


@dataclass(frozen=True)
class Known:
    """What the day has read already, so that nothing is read twice."""

    today: date
    settings: BookSettings
    lives: Lives
    house: TanksOnDay
    pups: Sequence[PupFacts]
    due: Sequence[DueLitter]
    still: Sequence[OffCurve] = ()


def alarms_of(session: Session, known: Known) -> tuple[Alarm, ...]:
    """Every danger that the book knows of, the nearest first."""
    found = [alarm for source in SOURCES for alarm in source(session, known)]
    if not found:
        return ()
    rows = session.execute(
        columns(col(AlarmAnswer.alarm), col(AlarmAnswer.place), col(AlarmAnswer.evidence))
    )
    return ranked(unanswered(found, {(what, where, why) for what, where, why in rows}))


def _water(session: Session, known: Known) -> Iterator[Alarm]:
    for system, bad in bad_values(session, today=known.today).items():
        yield from of_water(system, bad)


def _deaths(session: Session, known: Known) -> Iterator[Alarm]:
    since = known.today - timedelta(days=DEATH_DAYS)
    query = (
        select(col(Animal.tag), col(Animal.ended_on), col(Placement.tank_id))
        .select_from(Animal)
        .join(Placement, col(Placement.animal_id) == col(Animal.id))
        .where(
            Animal.status == "died",
            col(Animal.ended_on) > since,
            col(Animal.ended_on) <= known.today,
            col(Placement.left_on) > col(Animal.ended_on),
        )
    )
    by_system: dict[str, list[tuple[str, date]]] = defaultdict(list)
    for tag, day, tank_id in session.exec(query):
        if day is not None:
            by_system[known.house.tanks[tank_id].plan.system or ""].append((tag, day))
    for system, deaths in by_system.items():
        yield from of_deaths(system, deaths, known.today)


def _tanks(session: Session, known: Known) -> Iterator[Alarm]:
    stay = timedelta(days=known.settings.nursery_stay_days)
    young = [pup for pup in known.pups if pup.born and known.today - pup.born < stay]
    dams = _dams(session, {pup.litter for pup in young})
    dam_of = {pup.tag: dams.get(pup.litter, "") for pup in young}
    growing = {pup.tag for pup in known.pups}
    for tank in known.house.tanks.values():
        here = known.house.in_tank(tank.id)
        pups = {each.tag: dam_of[each.tag] for each in here if each.tag in dam_of}
        if pups:
            grown = [each.tag for each in here if each.tag not in growing]
            today = TankToday(tank.plan.code, here, pups, grown)
            yield from of_tank(today, known.settings.size_spread, known.today)
        isolated = [
            each.tag for each in here if each.isolated_until and each.isolated_until > known.today
        ]
        if isolated and not tank.plan.isolates:
            shares = [
                other.plan.code
                for other in known.house.tanks.values()
                if other.plan.system == tank.plan.system
                and other.plan.role != "intake"
                and known.house.in_tank(other.id)
            ]
            yield from of_isolation(isolated, tank.plan.code, shares, known.today)


def _dams(session: Session, litters: Collection[str]) -> dict[str, str]:
    """The dam of each litter, by its code."""
    query = (
        select(Litter.code, Animal.tag)
        .join(Animal, col(Litter.dam_id) == col(Animal.id))
        .where(col(Litter.code).in_(litters))
    )
    return dict(session.exec(query).all())


def _headcounts(session: Session, known: Known) -> Iterator[Alarm]:
    since = known.today - timedelta(days=HEADCOUNT_DAYS)
    for code, head in last_headcounts(session, since=since).items():
        yield from of_headcount(code, head.on, head.counted, head.booked)


def _signs(session: Session, known: Known) -> Iterator[Alarm]:
    """Signs of those who are here and not held: a hold says that it is known and acted on."""
    since = known.today - timedelta(days=SIGN_DAYS)
    held = select(Hold.animal_id).where(col(Hold.ended).is_(None))
    query = (
        columns(
            col(LookOver.seen_on),
            col(LookOver.sign),
            col(Animal.id),
            col(Animal.tag),
            col(Tank.code),
        )
        .select_from(LookOver)
        .join(Animal, col(LookOver.animal_id) == col(Animal.id), isouter=True)
        .join(Tank, col(LookOver.tank_id) == col(Tank.id), isouter=True)
        .where(
            col(LookOver.seen_on) > since,
            col(LookOver.seen_on) <= known.today,
            col(LookOver.animal_id).is_(None)
            | ((col(Animal.status) == "present") & col(Animal.id).not_in(held)),
        )
        .order_by(col(LookOver.seen_on), col(LookOver.id))
    )
    last: dict[tuple[str, str], list[tuple[str, date]]] = {}
    for day, sign, animal_id, tag, code in session.execute(query):
        where = code
        if animal_id is not None:
            tank = known.house.tanks.get(known.house.tank_of.get(animal_id, 0))
            where = tank.plan.code if tank else tag
        key = (where or "", tag or where or "")
        # Seen well since: what was seen before is over.
        last[key] = [] if sign == WELL else [*last.get(key, []), (sign, day)]
    by_tank: dict[str, list[tuple[str, str, date]]] = defaultdict(list)
    for (where, who), signs in last.items():
        by_tank[where] += [(who, sign, day) for sign, day in signs]
    for where, found in by_tank.items():
        yield from of_signs(where, found)


def _poorly(session: Session, known: Known) -> Iterator[Alarm]:
    """Who refuses food or stands still, water by water."""
    called, today = known.settings.refusals_called, known.today
    tags = {
        each.tag: tank.plan.system or ""
        for tank in known.house.tanks.values()
        for each in known.house.in_tank(tank.id)
    }
    by_id = _tags_of(session, known.house.tank_of)
    found = [
        (by_id[key], "refuses food", since)
        for key, _, since in refusing(session, by_id, called, today)
    ]
    found += [(each.tag, "stands still", each.since or today) for each in known.still]
    by_system: dict[str, list[tuple[str, str, date]]] = defaultdict(list)
    for tag, what, since in found:
        if tag in tags:
            by_system[tags[tag]].append((tag, what, since))
    for system, poorly in by_system.items():
        yield from of_poorly(system, poorly)


def _tags_of(session: Session, ids: Collection[int]) -> dict[int, str]:
    query = columns(col(Animal.id), col(Animal.tag)).where(col(Animal.status) == "present")
    return {key: tag for key, tag in session.execute(query) if key in ids}


def _drifts(session: Session, known: Known) -> Iterator[Alarm]:
    for (system, parameter), tests in read_series(session, DRIFTING, until=known.today).items():
        if found := drift(tests, least_spread=DRIFTING[parameter]):
            name, unit = parameter.partition("_")[0], PARAMETERS[parameter].unit
            yield of_drift(system, name, unit, found)


def _births(_session: Session, known: Known) -> Iterator[Alarm]:
    for litter in known.due:
        if litter.state == "overdue":
            yield from of_birth(litter.dam, litter.tank, known.today)


SOURCES: tuple[Callable[[Session, Known], Iterator[Alarm]], ...] = (
    _water,
    _deaths,
    _tanks,
    _headcounts,
    _signs,
    _poorly,
    _drifts,
    _births,
)
"""Who is asked: each subject adds its own here."""
