"""Prepare a birth: when to part the dam, into which tank, and what has to stand by when."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from colony.acts.animals.parents import find_parent
from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.tanks.loads import read_house_today
from colony.acts.tanks.placing import reasons_against
from colony.planning.tanks.load import COMING, Occupant, coming_pups
from colony.records import Animal, Species, Tank
from colony.refusals.litters import NotDue
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.tanks.house import TankRow, TanksOnDay
from colony.store.settings import read_settings

_NO_BIRTH_ROLES = frozenset({"intake", "hospital"})


@dataclass(frozen=True)
class TankForBirth:
    """A tank she may bear in, or why it does not take her and her pups."""

    tank: str
    role: str
    against: tuple[str, ...] = ()


@dataclass(frozen=True)
class Step:
    """What is to be done by a day."""

    by: date
    what: str
    late: bool = False


@dataclass(frozen=True)
class BirthPlan:
    """How a birth is prepared; `tank` is None where no tank takes her, and `others` say why.

    `pups` is the most of the species' usual litters.
    """

    dam: str
    state: str
    earliest: date
    likely: date
    latest: date
    tank: str | None
    pups: int
    steps: tuple[Step, ...]
    others: tuple[TankForBirth, ...]


def prepare_birth(session: Session, *, dam: str, today: date) -> BirthPlan:
    """Say what a birth asks for: the day to part her, a tank for her and her pups, and by when.

    She is parted before the days in which she is left in peace (`near_term_days` before the
    earliest date).

    Raises
    ------
    NoSuchTag, WrongSexForParent
    NotDue
        Nothing speaks for a pregnancy of hers.
    """
    mother = find_parent(session, dam, "dam", pup="her pups", born=None)
    due = next((d for d in due_litters(session, today=today) if d.dam == mother.tag), None)
    if due is None:
        raise NotDue(mother.tag)
    species = session.get(Species, mother.species_id) if mother.species_id else None
    life = read_lives(session).of(species.name if species else None)
    pups = round(life.traits["litter_high"])
    house = read_house_today(session, today).with_family(mother.tag, COMING)
    width_mm = life.traits["birth_width_mm"]
    coming = coming_pups(pups, width_mm)
    tried = list(_tried(session, house, mother, coming, due=due, today=today))
    fits = next((each.tank for each in tried if not each.against), None)
    settings = read_settings(session)
    part_by = due.earliest - timedelta(days=settings.near_term_days)
    return BirthPlan(
        dam=mother.tag,
        state=due.state,
        earliest=due.earliest,
        likely=due.likely,
        latest=due.latest,
        tank=fits,
        pups=pups,
        steps=tuple(_steps(due, fits, part_by, settings.nursery_weeks, today)),
        others=tuple(each for each in tried if each.against),
    )


def _steps(
    due: DueLitter, tank: str | None, part_by: date, weeks: int, today: date
) -> Iterator[Step]:
    """What is to be done, in order of its day."""
    places = " and ".join(dict.fromkeys(filter(None, (tank, due.nursery_tank))))
    mature = min(due.nursery, part_by - timedelta(weeks=weeks))
    yield Step(
        mature,
        f"{places or 'a nursery'}: a filter that is new needs {weeks} weeks until she is parted",
        late=mature < today,
    )
    away = f"from {' and '.join(due.sires)}" if due.sires else "from the group"
    if tank is not None and due.tank == tank:
        yield Step(today, f"she is in {tank} already: leave her in peace")
    elif tank is not None:
        yield Step(max(part_by, today), f"part her {away} into {tank}", late=part_by < today)
    else:
        yield Step(max(part_by, today), "no tank takes her: make room, or move the males away")
    yield Step(due.earliest, f"look in every day until {due.latest}; likely {due.likely}")
    if due.nursery_tank and due.nursery_tank != tank:
        yield Step(due.likely, f"bring the pups to {due.nursery_tank} on the day of the birth")


def _tried(
    session: Session,
    house: TanksOnDay,
    mother: Animal,
    coming: Sequence[Occupant],
    *,
    due: DueLitter,
    today: date,
) -> Iterator[TankForBirth]:
    """Every tank she might bear in, the allotted nursery first, then nurseries, then empty ones."""
    own = house.tank_of.get(mother.id or 0)
    her = next(
        (o for o in house.in_tank(own or 0) if o.tag == mother.tag), Occupant(mother.tag, None)
    )
    for row in _in_order(house, due):
        tank = session.get_one(Tank, row.id)
        newcomers = list(coming) if row.id == own else [her, *coming]
        against = [r.sentence for r in reasons_against(session, house, tank, newcomers, today)]
        against += [f"{each} is in it" for each in _others_in(house, row, mother.tag)]
        yield TankForBirth(row.plan.code, row.plan.role, tuple(against))


def _in_order(house: TanksOnDay, due: DueLitter) -> list[TankRow]:
    def rank(row: TankRow) -> tuple[bool, bool]:
        return row.plan.code != due.nursery_tank, row.plan.role != "nursery"

    usable = [
        row
        for row in house.tanks.values()
        if row.retired_on is None
        and row.plan.role not in _NO_BIRTH_ROLES
        and (row.plan.role == "nursery" or not house.in_tank(row.id))
    ]
    return sorted(usable, key=rank)


def _others_in(house: TanksOnDay, row: TankRow, dam: str) -> Sequence[str]:
    """Who else is in a tank: a birth is left alone."""
    return [o.tag for o in house.in_tank(row.id) if o.tag != dam]
