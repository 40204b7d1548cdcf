"""Expected nitrate of a system, from what was fed and changed since its last test."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session, col, func, select

from colony.acts.water.changes import find_row
from colony.planning.water.nitrate import (
    NitrateDay,
    nitrate_after,
    nitrate_from_food_mg,
    nitrate_in_the_long_run,
    nitrate_under_drip,
)
from colony.records import Food, Tank, TankFeeding, WaterChange, WaterTest
from colony.store.readers.water import SystemRow
from colony.store.settings import read_settings

MEAN_DAYS = 28
"""Days of feeding that the long run is told from."""


@dataclass(frozen=True)
class NitrateOutlook:
    """Nitrate in mg/L: tested, expected today, and where feed and changes settle.

    `left_out` counts feedings that cannot be reckoned: no grams, or a food of unknown protein.
    """

    system: str
    tested_on: date | None
    tested_mg_l: float | None
    expected_mg_l: float | None
    long_run_mg_l: float | None
    food_g_a_day: float
    left_out: int


def nitrate_outlook(session: Session, *, system: str, today: date) -> NitrateOutlook:
    """Follow nitrate from the last test to today, and tell where it goes in the long run.

    Raises
    ------
    NoSuchSystem, NoVolume
    """
    home = find_row(session, system, today)
    tap = read_settings(session).tap_nitrate_mg_l
    month = today - timedelta(days=MEAN_DAYS - 1)
    test = _last_test(session, home.id, today)
    since = min(month, test[0]) if test else month
    food = _food_by_day(session, home.id, since, today)
    expected = None
    if test:
        followed = _days_after(session, home, food, test[0], today)
        expected = round(nitrate_after(test[1], home.volume_l or 1, followed, tap), 1)
    # A house whose feedings began last week is no house that fed little for a month.
    fed = [day for day in food.by_day if day >= month]
    days = (today - min(fed)).days + 1 if fed else MEAN_DAYS
    made = sum(nitrate_from_food_mg(g, protein) for g, protein in food.since(month)) / days
    return NitrateOutlook(
        system=home.name,
        tested_on=test[0] if test else None,
        tested_mg_l=test[1] if test else None,
        expected_mg_l=expected,
        long_run_mg_l=_long_run(home, made, tap),
        food_g_a_day=round(sum(g for g, _ in food.since(month)) / days, 1),
        left_out=food.left_out,
    )


@dataclass(frozen=True)
class _Food:
    """Grams and mean protein by day, and how many feedings could not be reckoned."""

    by_day: dict[date, tuple[float, float]]
    left_out: int

    def since(self, first: date) -> list[tuple[float, float]]:
        return [fed for day, fed in self.by_day.items() if day >= first]


def _days_after(
    session: Session, home: SystemRow, food: _Food, first: date, last: date
) -> list[NitrateDay]:
    """Each day after the test adds its food and takes its change; so does the drip."""
    query = (
        select(col(WaterChange.changed_on), func.sum(col(WaterChange.litres)))
        .where(WaterChange.system_id == home.id)
        .group_by(col(WaterChange.changed_on))
    )
    changes = {day: int(litres) for day, litres in session.exec(query)}
    drip_l = home.regime.drip_l_a_day or 0 if home.regime else 0
    days = [first + timedelta(days=n) for n in range(1, (last - first).days + 1)]
    return [
        NitrateDay(*food.by_day.get(day, (0.0, 0.0)), renewed_l=changes.get(day, 0) + drip_l)
        for day in days
    ]


def _long_run(home: SystemRow, made_mg_a_day: float, tap: float) -> float | None:
    regime, volume_l = home.regime, home.volume_l or 1
    if regime is None or not made_mg_a_day:
        return None
    if regime.percent is None or regime.every_days is None:
        settled = nitrate_under_drip(made_mg_a_day, regime.drip_l_a_day or 1, tap)
    else:
        changed_l = volume_l * regime.percent / 100 + regime.every_days * (regime.drip_l_a_day or 0)
        settled = nitrate_in_the_long_run(
            made_mg_a_day, volume_l, min(changed_l, volume_l), regime.every_days, tap
        )
    return round(settled, 1)


def _last_test(session: Session, system_id: int, today: date) -> tuple[date, float] | None:
    row = session.exec(
        select(WaterTest)
        .where(
            WaterTest.system_id == system_id,
            WaterTest.parameter == "nitrate_mg_l",
            WaterTest.tested_on <= today,
        )
        .order_by(col(WaterTest.tested_on).desc(), col(WaterTest.id).desc())
    ).first()
    return (row.tested_on, row.value) if row else None


def _food_by_day(session: Session, system_id: int, first: date, last: date) -> _Food:
    query = (
        select(col(TankFeeding.fed_on), col(TankFeeding.offered_g), col(Food.protein_percent))
        .join(Food, col(TankFeeding.food_id) == col(Food.id))
        .join(Tank, col(TankFeeding.tank_id) == col(Tank.id))
        .where(Tank.system_id == system_id, col(TankFeeding.fed_on).between(first, last))
    )
    protein_g: dict[date, float] = defaultdict(float)
    food_g: dict[date, float] = defaultdict(float)
    left_out = 0
    for day, grams, percent in session.exec(query):
        if grams is None or percent is None:
            left_out += 1
            continue
        food_g[day] += grams
        protein_g[day] += grams * percent / 100
    return _Food({day: (g, protein_g[day] / g) for day, g in food_g.items()}, left_out)
