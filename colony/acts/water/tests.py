"""Water tests: write them down, hold them to the limits of who lives there, follow a trend."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_future
from colony.acts.care.ticks import note_done
from colony.notation.care import PARAMETERS, UNIONISED
from colony.notation.cautions import ZOONOSIS
from colony.notation.house import reading_key, reading_number
from colony.papers.growth.trends import draw_trend
from colony.planning.water.limits import (
    USUAL_LIMITS,
    Limit,
    out_of_limits,
    with_unionised,
)
from colony.records import Species, WaterLimit, WaterTest
from colony.records.rules import broken
from colony.refusals.water import LimitUnclear
from colony.store.journal.journal import tell
from colony.store.lookup import find_species, find_system
from colony.store.readers.water import read_last_tests, read_limits


@dataclass(frozen=True)
class ReadingLine:
    """One value of a system's water and the limit it is held to."""

    parameter: str
    value: float
    unit: str
    on: date
    low: float | None
    high: float | None
    source: str | None
    within: bool


@dataclass(frozen=True)
class Tested:
    """A test that was written down, with everything that it says of the water today."""

    system: str
    on: date
    values: tuple[ReadingLine, ...]
    warnings: tuple[str, ...]
    cautions: tuple[str, ...] = (ZOONOSIS,)


@dataclass(frozen=True)
class Trend:
    """The values of one parameter of a system in time, and the picture of them."""

    system: str
    parameter: str
    unit: str
    points: tuple[tuple[date, float], ...]
    low: float | None
    high: float | None
    drawn: tuple[str, ...]


@dataclass(frozen=True)
class LimitLine:
    """One limit of the book with its source; `species` None is everybody's."""

    parameter: str
    species: str | None
    low: float | None
    high: float | None
    source: str
    own: bool


def log_test(
    session: Session,
    *,
    system: str,
    values: Mapping[str, float],
    on: date,
    note: str | None = None,
    today: date,
) -> Tested:
    """Write down what was measured in a system's water.

    Raises
    ------
    NoSuchSystem, NotYet
    """
    refuse_future("A water test", on, today)
    home = find_system(session, system)
    assert home.id is not None  # noqa: S101 - it was found in the book
    session.add_all(
        WaterTest(system_id=home.id, tested_on=on, parameter=name, value=value, note=note)
        for name, value in values.items()
    )
    note_done(session, task="water test", place=home.name, on=on)
    told = (f"{reading_key(name)} {_number(name, value)}" for name, value in values.items())
    tell(session, f"{home.name}: {', '.join(told)}")
    lines = tuple(water_now(session, system=home.name, today=today))
    warnings = tuple(_warning(home.name, line) for line in lines if not line.within)
    return Tested(home.name, on, lines, warnings)


def water_now(session: Session, *, system: str, today: date) -> list[ReadingLine]:
    """What the tests of the last two weeks say of a system's water, and its limits."""
    home = find_system(session, system)
    tests = read_last_tests(session, today).get(home.id or 0, {})
    limits = read_limits(session, today)[home.id or 0]
    days = {name: day for name, (day, _) in tests.items()}
    days[UNIONISED] = max(
        (days[name] for name in ("ammonia_mg_l", "ammonia_nh3_mg_l") if name in days),
        default=today,
    )
    values = with_unionised({name: value for name, (_, value) in tests.items()})
    bad = {limit.parameter for limit in out_of_limits(values, limits)}
    return [
        _reading_line(name, value, days.get(name, today), limits.get(name), within=name not in bad)
        for name, value in values.items()
    ]


def water_trend(
    session: Session, *, system: str, parameter: str, since: date | None = None, today: date
) -> Trend:
    """Follow one parameter of a system, with its limits drawn.

    Raises
    ------
    NoSuchSystem
    """
    home = find_system(session, system)
    query = select(col(WaterTest.tested_on), col(WaterTest.value)).where(
        WaterTest.system_id == home.id, WaterTest.parameter == parameter
    )
    if since is not None:
        query = query.where(WaterTest.tested_on >= since)
    rows = session.exec(query.order_by(col(WaterTest.tested_on), col(WaterTest.id))).all()
    limit = read_limits(session, today)[home.id or 0].get(parameter)
    low, high = (limit.low, limit.high) if limit else (None, None)
    return Trend(
        system=home.name,
        parameter=parameter,
        unit=PARAMETERS[parameter].unit,
        points=tuple((day, value) for day, value in rows),
        low=low,
        high=high,
        drawn=tuple(_drawn(parameter, rows, low, high)),
    )


def set_limit(
    session: Session,
    *,
    parameter: str,
    species: str | None = None,
    low: float | None,
    high: float | None,
    source: str,
) -> LimitLine:
    """Set the bounds of a parameter for a species, or for all, and say where they come from.

    Raises
    ------
    NoSuchSpecies, LimitUnclear
    """
    if wrong := broken(WaterLimit, low=low, high=high):
        raise LimitUnclear(parameter, wrong)
    home = find_species(session, species) if species else None
    row = session.exec(
        select(WaterLimit).where(
            WaterLimit.parameter == parameter,
            col(WaterLimit.species_id).is_not_distinct_from(home.id if home else None),
        )
    ).first() or WaterLimit(parameter=parameter, source=source)
    row.species_id = home.id if home else None
    row.low, row.high, row.source = low, high, source
    session.add(row)
    session.flush()
    name = home.name if home else None
    told = " to ".join("any" if x is None else _number(parameter, x) for x in (low, high))
    tell(session, f"{reading_key(parameter)} of {name or 'all'}: {told}")
    return LimitLine(parameter, name, low, high, source, own=True)


def list_limits(session: Session) -> list[LimitLine]:
    """Every limit: the book's own, and the usual ones that it does not replace."""
    query = select(WaterLimit, Species.name).join(
        Species, col(WaterLimit.species_id) == col(Species.id), isouter=True
    )
    own = [
        LimitLine(row.parameter, name, row.low, row.high, row.source, own=True)
        for row, name in session.exec(query)
    ]
    replaced = {line.parameter for line in own if line.species is None}
    usual = [
        LimitLine(limit.parameter, None, limit.low, limit.high, limit.source, own=False)
        for limit in USUAL_LIMITS
        if limit.parameter not in replaced
    ]
    return sorted(own + usual, key=lambda line: (line.parameter, line.species or ""))


def _reading_line(
    name: str, value: float, on: date, limit: Limit | None, *, within: bool
) -> ReadingLine:
    return ReadingLine(
        parameter=name,
        value=round(value, 4),
        unit="mg/L" if name == UNIONISED else PARAMETERS[name].unit,
        on=on,
        low=limit.low if limit else None,
        high=limit.high if limit else None,
        source=limit.source if limit else None,
        within=within,
    )


def _drawn(
    parameter: str, points: Sequence[tuple[date, float]], low: float | None, high: float | None
) -> list[str]:
    return draw_trend(
        [(day, reading_number(parameter, value)) for day, value in points],
        low=None if low is None else reading_number(parameter, low),
        high=None if high is None else reading_number(parameter, high),
    )


def _number(parameter: str, value: float) -> str:
    return f"{round(reading_number(parameter, value), 4):g}"


def _warning(system: str, line: ReadingLine) -> str:
    name = line.parameter
    bounds = [
        f"{word} {_number(name, bound)}"
        for word, bound in (("least", line.low), ("most", line.high))
        if bound
    ]
    value = _number(name, line.value)
    return f"{system}: {reading_key(name)} is {value} ({', '.join(bounds)}; {line.source})."
