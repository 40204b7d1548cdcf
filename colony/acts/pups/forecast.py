"""How a pup will grow, when it will be ready, and whether it is off its curve."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

from sqlmodel import Session

from colony.acts.animals.days import refuse_ended
from colony.exchange.text.writing import write_file
from colony.papers.growth.curve import growth_svg
from colony.papers.growth.picture import Growing, GrowthPicture, growth_picture
from colony.planning.pups.growth import Curve, Width, forecast
from colony.planning.pups.growth_flags import OffCurve
from colony.planning.pups.readiness import readiness
from colony.refusals.pups import NothingToForecast
from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.pups.growing import read_pups
from colony.store.readers.pups.growth import Growth, read_growth


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
    NoSuchTag, NotHere, NothingToForecast
    """
    animal = find_animal(session, tag)
    refuse_ended(animal, "be forecast")
    lives = read_lives(session)
    growth = read_growth(session, read_herd(session), lives, today)
    curve = growth.colony.curves.get(animal.tag)
    if curve is None:
        raise NothingToForecast(animal.tag)
    pup = next((row for row in read_pups(session, lives, today) if row.tag == animal.tag), None)
    days = [today + timedelta(weeks=n) for n in range(weeks + 1)]
    rules = lives.of(pup.species or None).ready_rules() if pup else None
    ready = readiness(replace(pup, curve=curve), rules, today) if pup and rules else None
    found = PupForecast(
        tag=animal.tag,
        litter=growth.growers[animal.tag].litter or None,
        measured=_widths(growth.trusted[animal.tag].kept),
        doubtful=_widths(growth.trusted[animal.tag].doubtful),
        forecast=_forecasts(curve, days),
        expected_ready=ready.expected_ready if ready else None,
        ready_low=ready.ready_low if ready else None,
        ready_high=ready.ready_high if ready else None,
        off_curve=[pup.sentence for pup in growth.off_curve(today) if pup.tag == animal.tag],
    )
    return found, _picture(growth, animal.tag, days[-1], rules.min_width_mm if rules else None)


def draw_forecast(picture: GrowthPicture, *, path: Path, overwrite: bool) -> None:
    """Draw a growth curve into an SVG file, whole or not at all.

    Raises
    ------
    WouldOverwrite, CannotWrite
    """
    write_file(path, growth_svg(picture), overwrite=overwrite)


def off_curves(session: Session, *, today: date) -> list[OffCurve]:
    """Every growing pup that shrank, stands still or lags behind its litter."""
    lives = read_lives(session)
    growing = {pup.tag for pup in read_pups(session, lives, today)}
    growth = read_growth(session, read_herd(session), lives, today)
    return [pup for pup in growth.off_curve(today) if pup.tag in growing]


def _widths(widths: Iterable[Width]) -> list[dict[str, Any]]:
    return [{"on": width.day, "disc_width_mm": round(width.width_mm)} for width in widths]


def _forecasts(curve: Curve, days: Iterable[date]) -> list[dict[str, Any]]:
    return [
        {
            "on": ahead.day,
            "disc_width_mm": round(ahead.width_mm),
            "low_mm": round(ahead.low_mm),
            "high_mm": round(ahead.high_mm),
        }
        for ahead in (forecast(curve, day) for day in days)
    ]


def _picture(growth: Growth, tag: str, until: date, wanted_mm: float | None) -> GrowthPicture:
    grower, trusted = growth.growers[tag], growth.trusted[tag]
    mates = {
        sibling.tag: sibling.widths
        for sibling in growth.growers.values()
        if sibling.litter and sibling.litter == grower.litter and sibling.tag != tag
    }
    pup = Growing(
        tag=tag,
        curve=growth.colony.curves[tag],
        prior=grower.prior,
        widths=trusted.kept,
        doubtful=trusted.doubtful,
    )
    return growth_picture(pup, mates, until=until, wanted_mm=wanted_mm)
