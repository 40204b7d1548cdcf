"""How a pup will grow, when it will be ready, and whether it is off its curve."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from sqlmodel import Session

from colony.acts.growth_curves import with_curves
from colony.papers.growth_picture import Growing, GrowthPicture, growth_picture
from colony.planning.growth import forecast
from colony.planning.growth_flags import OffCurve
from colony.planning.readiness import readiness
from colony.refusals.pups import NothingToForecast
from colony.store.lookup import find_animal
from colony.store.readers.growing import read_pups
from colony.store.readers.growth import Growth, read_growth
from colony.store.readers.herd import read_herd
from colony.store.readers.lives import read_lives


@dataclass(frozen=True)
class PupForecast:
    """Widths of an animal so far and in the weeks to come (80 % interval), in mm."""

    tag: str
    litter: str | None
    measured: list[dict[str, Any]]
    doubtful: list[dict[str, Any]]
    forecast: list[dict[str, Any]]
    expected_ready: date | None
    ready_low: date | None
    ready_high: date | None
    off_curve: list[str]


def forecast_pup(
    session: Session, *, tag: str, weeks: int, today: date
) -> tuple[PupForecast, GrowthPicture]:
    """Forecast the disc width of an animal week by week, and put its curve together.

    Raises
    ------
    NoSuchTag, NothingToForecast
    """
    animal = find_animal(session, tag)
    herd, lives = read_herd(session), read_lives(session)
    growth = read_growth(session, herd, lives, today)
    if animal.tag not in growth.colony.curves:
        raise NothingToForecast(animal.tag)
    curve = growth.colony.curves[animal.tag]
    days = [today + timedelta(weeks=n) for n in range(weeks + 1)]
    pup = next((one for one in read_pups(session, lives, today) if one.tag == animal.tag), None)
    rules = lives.of(pup.species or None).ready_rules() if pup else None
    ready = (
        readiness(with_curves(session, [pup], lives, today)[0], rules, today)
        if pup and rules
        else None
    )
    trusted = growth.trusted[animal.tag]
    answer = PupForecast(
        tag=animal.tag,
        litter=growth.growers[animal.tag].litter or None,
        measured=[{"on": one.day, "disc_width_mm": round(one.width_mm)} for one in trusted.kept],
        doubtful=[
            {"on": one.day, "disc_width_mm": round(one.width_mm)} for one in trusted.doubtful
        ],
        forecast=[
            {
                "on": f.day,
                "disc_width_mm": round(f.width_mm),
                "low_mm": round(f.low_mm),
                "high_mm": round(f.high_mm),
            }
            for f in (forecast(curve, day) for day in days)
        ],
        expected_ready=ready.expected_ready if ready else None,
        ready_low=ready.ready_low if ready else None,
        ready_high=ready.ready_high if ready else None,
        off_curve=[one.sentence for one in growth.off_curve(today) if one.tag == animal.tag],
    )
    wanted_mm = rules.min_width_mm if rules else None
    return answer, _picture(growth, animal.tag, days[-1], wanted_mm)


def off_curves(session: Session, *, today: date) -> list[OffCurve]:
    """Every growing pup that shrank, stands still or lags behind its litter."""
    lives = read_lives(session)
    growing = {pup.tag for pup in read_pups(session, lives, today)}
    growth = read_growth(session, read_herd(session), lives, today)
    return [one for one in growth.off_curve(today) if one.tag in growing]


def _picture(growth: Growth, tag: str, until: date, wanted_mm: float | None) -> GrowthPicture:
    grower, trusted = growth.growers[tag], growth.trusted[tag]
    mates = {
        one.tag: one.widths
        for one in growth.growers.values()
        if one.litter and one.litter == grower.litter and one.tag != tag
    }
    pup = Growing(
        tag=tag,
        curve=growth.colony.curves[tag],
        prior=grower.prior,
        widths=trusted.kept,
        doubtful=trusted.doubtful,
    )
    return growth_picture(pup, mates, until=until, wanted_mm=wanted_mm)
