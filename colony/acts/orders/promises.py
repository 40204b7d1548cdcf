"""How many may be promised, by species, sex and week: what will be ready and is not promised yet."""

from collections import Counter, defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from math import ceil

from sqlmodel import Session, col, select

from colony.acts.litters.due import DueLitter
from colony.acts.orders.stock import Shelf, read_shelf
from colony.planning.health.survival import Lived, survival
from colony.planning.orders.promises import Coming, GrowingPup, Interval, WeekCount, count_ready
from colony.planning.orders.wanted import still_wanted
from colony.planning.pups.gates import PupFacts
from colony.planning.pups.readiness import Readiness, readiness
from colony.records import Animal, Litter
from colony.store.readers.orders.orders import OrderRow, read_orders

CHANCES = {"confirmed": 0.95, "expected": 0.7, "possible": 0.4, "overdue": 0.5}
"""How likely a litter comes, by what speaks for it; common practice, no source."""

NEVER_DAYS = 3650
"""What stands for a day that may never come."""

ANY_KIND = "any"
"""What is wanted of no one species."""


@dataclass(frozen=True)
class Promise:
    """How many of a species and sex are ready by the end of a week, and how many are asked for.

    `likely` is the median, `sure` what is there with 90 %; `promised` what open orders ask for
    by then beyond what is kept for them; `free` what is left of the sure number.
    """

    species: str
    sex: str
    week: int
    likely: int
    sure: int
    promised: int
    free: int
    until: date


def promises(
    session: Session, *, weeks: int, today: date, species: str | None = None, first: int = 1
) -> list[Promise]:
    """What may be promised in each of the next weeks; what is kept or held back is left out.

    The `first` week that is asked for is next week's number, 1.
    """
    asked_for = range(first, weeks + 1)
    shelf = read_shelf(session, today, to_come=True)
    counts = _counts(session, shelf, asked_for)
    asked = _asked(read_orders(session, today), weeks, today)
    known = {(each.species, each.sex) for each in counts}
    counts += [
        WeekCount(*key, week, counts[0].until if counts else today, 0, 0)
        for key in sorted(asked.keys() - known)
        for week in asked_for
    ]
    found = []
    for each in counts:
        promised = asked.get((each.species, each.sex), {}).get(each.week, 0)
        found.append(
            Promise(
                each.species,
                each.sex,
                each.week,
                each.likely,
                each.sure,
                promised,
                each.sure - promised,
                each.until,
            )
        )
    return [each for each in found if species in {None, each.species}]


def beyond(session: Session, order: OrderRow, today: date) -> tuple[str, ...]:
    """What an order asks for beyond what will surely be there by its day, in sentences."""
    by = order.head.needed_by
    if by is None or not order.wants:
        return ()
    weeks = min(max(ceil(((by - today).days + 1) / 7), 1), 104)
    last = promises(session, weeks=weeks, first=weeks, today=today)
    free = {(each.species, each.sex): each for each in last}
    said = []
    for want in order.wants:
        each = free.get((want.species or ANY_KIND, want.sex))
        if each is not None and each.free < 0 and want.species:
            said.append(
                f"{each.promised} {want.species} {want.sex} are asked for by {by}, "
                f"and {each.sure} will surely be free."
            )
    return tuple(dict.fromkeys(said))


def _counts(session: Session, shelf: Shelf, weeks: range) -> list[WeekCount]:
    lived = _lived(session, shelf.today)
    growing = [
        _growing(pup, shelf, lived)
        for pup in shelf.pups
        if not pup.held_back and pup.tag not in shelf.kept
    ]
    sizes = _litter_sizes(session, shelf)
    coming = [each for due in shelf.due if (each := _coming(due, shelf, sizes, lived)) is not None]
    return count_ready(growing, coming, weeks=weeks, today=shelf.today)


def _growing(pup: PupFacts, shelf: Shelf, lived: Sequence[Lived]) -> GrowingPup:
    ready = shelf.ready(pup, None)
    age = ready.age_days or 0
    days = _interval(ready, shelf.today)
    return GrowingPup(pup.species, pup.sex, days, _lives(lived, age, age + days.likely))


def _coming(
    due: DueLitter,
    shelf: Shelf,
    sizes: Mapping[str, Mapping[int, float]],
    lived: Sequence[Lived],
) -> Coming | None:
    species = shelf.lineage.herd.by_id(shelf.ids[due.dam]).species or ""
    if species not in sizes:
        return None
    rules = shelf.lives.of(species).ready_rules()
    ready = {}
    for sex in ("F", "M"):
        pup = PupFacts(
            due.dam, species, sex, born=due.likely, prior=shelf.lives.of(species).growth(sex)
        )
        # Food is offered from birth on, so that its gate never is the last.
        tried = readiness(pup, replace(rules, min_foods=0), shelf.today)
        ready[sex] = _interval(tried, due.likely)
    today = shelf.today
    return Coming(
        species,
        Interval(*((day - today).days for day in (due.earliest, due.likely, due.latest))),
        sizes[species],
        ready,
        lives=_lives(lived, 0, min(ready["F"].likely, NEVER_DAYS)),
        chance=CHANCES[due.state],
    )


def _interval(ready: Readiness, since: date) -> Interval:
    """When the last gate opens, in days from a day on; sexing alone bars nobody here."""

    def days(day: date | None) -> float:
        return NEVER_DAYS if day is None else (day - since).days

    return Interval(days(ready.ready_low), days(ready.expected_ready), days(ready.ready_high))


def _lived(session: Session, today: date) -> list[Lived]:
    """How long each pup of a litter was followed, and whether it died."""
    query = (
        select(col(Animal.status), col(Animal.ended_on), col(Litter.born))
        .join(Litter, col(Animal.litter_id) == col(Litter.id))
        .order_by(col(Animal.id))
    )
    return [
        Lived(max(((ended or today) - born).days, 0), status == "died")
        for status, ended, born in session.exec(query)
    ]


def _lives(lived: Sequence[Lived], age_days: float, until_days: float) -> float:
    """The share of those alive at an age that live to a later one, by this house's own deaths."""
    if not lived or until_days <= age_days:
        return 1.0
    followed = max(life.days for life in lived)
    ages = [min(int(days), followed) for days in (age_days, until_days)]
    now, then = (at.share or 0.0 for at in survival(lived, ages))
    return then / now if now else 1.0


def _litter_sizes(session: Session, shelf: Shelf) -> dict[str, dict[int, float]]:
    """How many are born alive, by species: as in this house, beside one litter of the books.

    The litter of the books is each number within the range of the species, all as likely.
    """
    seen: dict[str, Counter[int]] = defaultdict(Counter)
    rows = shelf.lineage.herd
    for dam, live in session.exec(select(col(Litter.dam_id), col(Litter.live))):
        seen[rows.by_id(dam).species or ""][live] += 1
    found = {}
    for species in {row.species for row in rows.rows if row.species}:
        traits = shelf.lives.of(species).traits
        low, high = int(traits["litter_low"]), int(traits["litter_high"])
        weights = dict.fromkeys(range(low, high + 1), 1 / (high - low + 1))
        for size, count in seen[species].items():
            weights[size] = weights.get(size, 0.0) + count
        total = sum(weights.values())
        found[species] = {size: weight / total for size, weight in weights.items()}
    return found


def _asked(
    orders: Sequence[OrderRow], weeks: int, today: date
) -> dict[tuple[str, str], dict[int, int]]:
    """What open orders ask for beyond what is kept for them, by species and sex, to each week.

    An order without a day is asked for at once.
    """
    asked: dict[tuple[str, str], Counter[int]] = defaultdict(Counter)
    for order in orders:
        if not order.is_open:
            continue
        for want in still_wanted(order.wants, order.animals):
            by = max(order.head.needed_by or today, today)
            first = (by - today).days // 7 + 1
            for week in range(first, weeks + 1):
                asked[want.species or ANY_KIND, want.sex][week] += want.wanted
    return {key: dict(by_week) for key, by_week in asked.items()}
