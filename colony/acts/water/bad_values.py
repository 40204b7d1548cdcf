"""What the last tests found outside the limits of who lives there."""

from datetime import date

from sqlmodel import Session, select

from colony.notation.care import UNIONISED
from colony.planning.alarms.alarms import BadValue
from colony.planning.water.limits import OutOfLimit, in_words, out_of_limits, with_unionised
from colony.records import System
from colony.store.readers.water import read_last_tests, read_limits


def bad_tests(session: Session, *, today: date) -> dict[str, list[OutOfLimit]]:
    """What lies outside its limits, by system."""
    return {system: [bad for bad, _ in found] for system, found in _bad(session, today).items()}


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
        days[UNIONISED] = days.get("ammonia_mg_l", today)
        bad = [(each, days[each.parameter]) for each in out_of_limits(values, limits[system])]
        if bad:
            found[names[system]] = bad
    return found
