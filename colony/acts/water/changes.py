"""Water: how each system's is renewed, what was changed, and what the reserve holds."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, select

from colony.acts.animals.days import refuse_future
from colony.acts.animals.guards import refuse_doubts
from colony.acts.care.ticks import note_done
from colony.notation.cautions import ELECTRICITY, MAINS_WATER
from colony.notation.house import say_volume
from colony.planning.guards.plausible import doubts_of_change
from colony.records import ReserveReading, System, WaterChange, WaterRegime
from colony.records.rules import broken
from colony.refusals.water import (
    MoreThanTheLimit,
    MoreThanTheSystem,
    NoRegime,
    NoVolume,
    RegimeUnclear,
    ReserveLevelTooHigh,
)
from colony.store.journal.journal import tell
from colony.store.lookup import find_system
from colony.store.readers.water import SystemRow, read_reserve, read_systems
from colony.store.settings import read_settings, write_setting


@dataclass(frozen=True)
class Regime:
    """How a system is renewed: percent of its volume every so many days, litres a day, or both."""

    percent: float | None = None
    every_days: int | None = None
    drip_l_a_day: int | None = None
    most_percent_a_day: float = 50.0


@dataclass(frozen=True)
class Changed:
    """A water change that was written down."""

    system: str
    on: date
    litres: int
    percent: float
    warnings: tuple[str, ...]
    cautions: tuple[str, ...] = (ELECTRICITY, MAINS_WATER)


@dataclass(frozen=True)
class ReserveState:
    """The reserve as it stands: what it holds, what a night brings, what is in it now."""

    capacity_l: int
    refill_l: int
    level_l: int
    drip_l_a_day: int


def set_regime(session: Session, *, system: str, regime: Regime, today: date) -> WaterRegime:
    """Set how a system's water is renewed.

    Raises
    ------
    NoSuchSystem, NoVolume, RegimeUnclear, MoreThanTheLimit
    """
    home = find_row(session, system, today)
    batch = {"percent": regime.percent, "every_days": regime.every_days}
    if wrong := broken(WaterRegime, **batch, drip_l_a_day=regime.drip_l_a_day):
        raise RegimeUnclear(wrong)
    if regime.percent is not None and regime.percent > regime.most_percent_a_day:
        raise MoreThanTheLimit(home.name, regime.percent, regime.most_percent_a_day)
    row = home.regime or WaterRegime(system_id=home.id, started=today)
    row.percent, row.every_days = regime.percent, regime.every_days
    row.drip_l_a_day, row.most_percent_a_day = regime.drip_l_a_day, regime.most_percent_a_day
    session.add(row)
    session.flush()
    batches = f"{regime.percent:g} % every {regime.every_days} days" if regime.percent else ""
    drip = f"a drip of {say_volume(regime.drip_l_a_day)} a day" if regime.drip_l_a_day else ""
    ways = " and ".join(way for way in (batches, drip) if way)
    tell(session, f"water of {home.name} is renewed by {ways}")
    return row


def change_water(
    session: Session,
    *,
    system: str,
    litres: int | None = None,
    on: date,
    note: str | None = None,
    anyway: bool = False,
    today: date,
) -> Changed:
    """Write down a water change, of the system's regime where no litres are given.

    More than the limit of a day is written as it was done, and warned of.

    Raises
    ------
    NoSuchSystem, NoVolume, NoRegime, MoreThanTheSystem, NotYet
    HardlyMeant
        It is more than the reserve holds.
    """
    refuse_future("A water change", on, today)
    home = find_row(session, system, today)
    volume_l = home.volume_l or 0
    if litres is None and (home.regime is None or home.regime.percent is None):
        raise NoRegime(home.name)
    percent = home.regime.percent if home.regime and home.regime.percent else 0.0
    changed_l = round(volume_l * percent / 100) if litres is None else litres
    if changed_l > volume_l:
        raise MoreThanTheSystem(home.name, say_volume(changed_l), say_volume(volume_l))
    reserve = read_reserve(session, read_settings(session), today) if on == today else None
    ready_l = reserve.level_l if reserve else None
    doubts = doubts_of_change(home.name, changed_l, ready_l)
    said = refuse_doubts(doubts, anyway=anyway)
    session.add(WaterChange(system_id=home.id, changed_on=on, litres=changed_l, note=note))
    note_done(session, task="water change", place=home.name, on=on, note=say_volume(changed_l))
    tell(session, f"{say_volume(changed_l)} of {home.name} changed")
    share = 100 * changed_l / volume_l
    most = home.regime.most_percent_a_day if home.regime else Regime.most_percent_a_day
    too_much = f"{share:.0f} % of {home.name} at once is more than its limit of {most:g} % a day."
    warnings = (*said, too_much) if share > most else said
    return Changed(home.name, on, changed_l, round(share, 1), warnings)


def set_reserve(
    session: Session,
    *,
    capacity_l: int | None = None,
    refill_l: int | None = None,
    level_l: int | None = None,
    today: date,
) -> ReserveState | None:
    """Set what the reserve holds and what a night brings, and write down what is in it.

    Raises
    ------
    ReserveLevelTooHigh
    """
    for key, litres in (("reserve_l", capacity_l), ("reserve_refill_l", refill_l)):
        if litres is not None:
            write_setting(session, key, str(litres))
            tell(session, f"{key} is {litres}")
    session.flush()
    if level_l is not None:
        _write_level(session, level_l, today)
    return reserve_now(session, today=today)


def reserve_now(session: Session, *, today: date) -> ReserveState | None:
    """The reserve as it stands, or None where the house has none."""
    reserve = read_reserve(session, read_settings(session), today)
    if reserve is None:
        return None
    drips = session.exec(select(WaterRegime.drip_l_a_day)).all()
    return ReserveState(
        reserve.capacity_l, reserve.refill_l, reserve.level_l, sum(litres or 0 for litres in drips)
    )


def find_row(session: Session, name: str, today: date) -> SystemRow:
    """The water of one system; `NoVolume` where its volume is not known."""
    home: System = find_system(session, name)
    row = next((system for system in read_systems(session, today) if system.id == home.id), None)
    if row is None or not row.volume_l:
        raise NoVolume(home.name)
    return row


def _write_level(session: Session, level_l: int, today: date) -> None:
    capacity_l = read_settings(session).reserve_l
    if level_l > capacity_l:
        raise ReserveLevelTooHigh(say_volume(level_l), say_volume(capacity_l))
    row = session.exec(
        select(ReserveReading).where(ReserveReading.read_on == today)
    ).first() or ReserveReading(read_on=today, litres=level_l)
    row.litres = level_l
    session.add(row)
    session.flush()
    tell(session, f"the reserve held {say_volume(level_l)}")
