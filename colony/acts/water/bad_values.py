"""What the last tests found outside the limits of who lives there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, select

from colony.acts.water.nitrate import MEAN_DAYS, nitrate_outlook
from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.readings import AMMONIA_AS
from colony.planning.alarms.alarms import BadValue
from colony.planning.water.ammonia import NH3_OF_NITROGEN
from colony.planning.water.limits import OutOfLimit, in_words, out_of_limits, with_unionised
from colony.planning.water.needs import expected_now
from colony.planning.water.source import SourceWater, brought_by_source
from colony.records import System
from colony.store.readers.water import (
    SystemRow,
    read_changes_after,
    read_last_tests,
    read_limits,
)
from colony.store.settings import BookSettings, read_settings


@dataclass(frozen=True)
class WaterNow:
    """The last tests of a system's water, and what lies outside its limits as of today."""

    values: Mapping[str, float]
    bad: tuple[OutOfLimit, ...]


def water_to_mend(
    session: Session, rows: Sequence[SystemRow], *, today: date
) -> dict[str, WaterNow]:
    """What water has to be brought back within its limits, by system.

    Each value that new water brings down counts the changes and the drip since its test, and
    nitrate what was fed since: where that is expected beyond its limit it is as urgent.
    """
    limits, source = read_limits(session, today), read_source(read_settings(session))
    tested = read_last_tests(session, today)
    found = {}
    for row in rows:
        tests = tested.get(row.id, {})
        values = with_unionised({name: value for name, (_, value) in tests.items()})
        days = {name: day for name, (day, _) in tests.items()}
        days[UNIONISED] = _ammonia_day(days, today)
        now = {
            name: _today(
                session, row, (name, value, days[name]), values=values, source=source, today=today
            )
            for name, value in values.items()
        }
        bad = out_of_limits(now, limits[row.id])
        expected = expected_nitrate(session, row.name, today)
        limit = limits[row.id].get("nitrate_mg_l")
        if expected is not None and limit and limit.high and expected > limit.high:
            bad = [each for each in bad if each.parameter != "nitrate_mg_l"]
            was = values.get("nitrate_mg_l", 0.0)
            bad.append(OutOfLimit("nitrate_mg_l", expected, limit, expected=was <= limit.high))
        found[row.name] = WaterNow(values, tuple(bad))
    return found


def expected_nitrate(session: Session, system: str, today: date) -> float | None:
    """What nitrate is expected to be, if a test of the last `MEAN_DAYS` says where it began."""
    outlook = nitrate_outlook(session, system=system, today=today)
    recent = outlook.tested_on and (today - outlook.tested_on).days < MEAN_DAYS
    return outlook.expected_mg_l if recent else None


def read_source(settings: BookSettings) -> SourceWater:
    """What the settings say of the new water."""
    holds = {
        "nitrate_mg_l": settings.tap_nitrate_mg_l,
        "nitrite_mg_l": settings.tap_nitrite_mg_l,
        "ammonia_mg_l": settings.tap_ammonia_mg_l,
        "ammonia_nh3_mg_l": settings.tap_ammonia_mg_l * NH3_OF_NITROGEN,
        "chlorine_mg_l": settings.tap_chlorine_mg_l,
    }
    return SourceWater(holds, settings.tap_ph or None)


def _today(
    session: Session,
    row: SystemRow,
    test: tuple[str, float, date],
    *,
    values: Mapping[str, float],
    source: SourceWater,
    today: date,
) -> float:
    """A tested value as it is expected today, by the water that was renewed since."""
    name, value, day = test
    if not (name == UNIONISED or PARAMETERS[name].diluted):
        return value
    drip_l = (row.regime.drip_l_a_day or 0) if row.regime else 0
    return expected_now(
        value,
        brought_by_source(name, values, source),
        row.volume_l or 1,
        read_changes_after(session, row.id, day, today),
        drip_l * (today - day).days,
    )


def _ammonia_day(days: Mapping[str, date], today: date) -> date:
    return max((days[name] for name in AMMONIA_AS.values() if name in days), default=today)


def bad_values(session: Session, *, today: date) -> dict[str, list[BadValue]]:
    """The same, each with the day of its test and in words."""
    return {
        system: [BadValue(bad.parameter, on, in_words(bad)) for bad, on in found]
        for system, found in _bad(session, today).items()
    }


def _bad(session: Session, today: date) -> dict[str, list[tuple[OutOfLimit, date]]]:
    tested = read_last_tests(session, today)
    if not tested:
        return {}
    limits = read_limits(session, today)
    names = {row.id or 0: row.name for row in session.exec(select(System))}
    found: dict[str, list[tuple[OutOfLimit, date]]] = {}
    for system, tests in tested.items():
        values = with_unionised({name: value for name, (_, value) in tests.items()})
        days = {name: day for name, (day, _) in tests.items()}
        # Computed from ammonia, so it is as old as that.
        days[UNIONISED] = _ammonia_day(days, today)
        bad = [(each, days[each.parameter]) for each in out_of_limits(values, limits[system])]
        if bad:
            found[names[system]] = bad
    return found
