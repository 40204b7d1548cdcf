"""Who asks for a second look: food refused in a row, a width or mass that stands still, signs."""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.acts.health.look_over import list_signs
from colony.notation.care import WELL
from colony.notation.cautions import VET
from colony.planning.health.watch import Still, refusals_in_a_row, standing_still
from colony.planning.pups.feeding import FoodOffered as Fed
from colony.records import Feeding, Litter, Measurement
from colony.store.readers.animals.herd import Herd, HerdRow, read_herd, read_places
from colony.store.readers.animals.lives import Lives, read_lives
from colony.store.readers.pups.growing import read_holds
from colony.store.settings import BookSettings, read_settings

LEAST_GROWTH_MM = 2
"""Less in the book's `still_days` is standing still for a growing pup; common practice, no source."""

LEAST_GAIN_G = 1
"""The same for its mass; a grown animal is called out when it loses mass."""

SIGN_DAYS = 14
"""A sign is news for so many days; common practice, no source."""


@dataclass(frozen=True)
class WatchLine:
    """One animal that asks for a second look, and why; `since` when it began."""

    tag: str
    tank: str | None
    why: str
    since: date
    held: bool
    caution: str = VET


def watch_list(session: Session, *, today: date) -> list[WatchLine]:
    """Everybody present that refuses food, stands still or showed a sign; the worst first."""
    settings, herd = read_settings(session), read_herd(session)
    here = {row.id: row for row in herd.rows if row.status == "present"}
    places, held = read_places(session, today), read_holds(session, today)
    found = [
        *refusing(session, here, settings.refusals_called, today),
        *_still(session, here, read_lives(session), settings, today),
        *_signs(session, herd, today),
    ]
    return [
        WatchLine(here[key].tag, places.get(key), why, since, key in held)
        for key, why, since in found
        if key in here
    ]


Found = tuple[int, str, date]
Sizes = dict[int, list[tuple[date, float]]]


def refusing(session: Session, here: Collection[int], least_days: int, today: date) -> list[Found]:
    """Who of some animals took nothing on so many feeding days in a row, and since when."""
    query = select(Feeding).where(Feeding.fed_on >= today - timedelta(days=90))
    fed: dict[int, list[Fed]] = defaultdict(list)
    for row in session.exec(query):
        if row.animal_id in here:
            fed[row.animal_id].append(Fed(row.fed_on, row.food, row.took))
    refusing = [(key, refusals_in_a_row(rows)) for key, rows in fed.items()]
    return sorted(
        (
            (key, f"took nothing on {row.days} feeding days in a row", row.since)
            for key, row in refusing
            if row is not None and row.days >= least_days
        ),
        key=lambda refusal: refusal[2],
    )


def _still(
    session: Session,
    here: dict[int, HerdRow],
    lives: Lives,
    settings: BookSettings,
    today: date,
) -> list[Found]:
    """Who stands still or loses mass now; what a birth took from a dam is no illness."""
    widths: Sizes = defaultdict(list)
    masses: Sizes = defaultdict(list)
    for row in session.exec(select(Measurement).order_by(col(Measurement.measured_on))):
        if row.width_mm is not None:
            widths[row.animal_id].append((row.measured_on, row.width_mm))
        if row.mass_g is not None:
            masses[row.animal_id].append((row.measured_on, row.mass_g))
    growing = {}
    for key, sizes in widths.items():
        animal, widest = here.get(key), max(width_mm for _, width_mm in sizes)
        if animal is None or animal.mature_since is not None:
            continue
        if widest < lives.of(animal.species).mature_width_mm(animal.sex):
            growing[key] = sizes
    days = settings.still_days
    young = {key: sizes for key, sizes in masses.items() if key in growing}
    grown = {key: sizes for key, sizes in masses.items() if key in here and key not in growing}
    stands = [
        *_standing(growing, "width", "mm", days, LEAST_GROWTH_MM),
        *_standing(young, "mass", "g", days, LEAST_GAIN_G),
        *_standing(grown, "mass", "g", days, 0),
    ]
    births = _births(session, {key for key, _, _ in stands})
    return [
        (key, words, still.since)
        for key, words, still in stands
        if still.is_news(today) and not any(still.since < day <= still.until for day in births[key])
    ]


def _births(session: Session, dams: Collection[int]) -> defaultdict[int, list[date]]:
    found: defaultdict[int, list[date]] = defaultdict(list)
    for litter in session.exec(select(Litter).where(col(Litter.dam_id).in_(dams))):
        found[litter.dam_id].append(litter.born)
    return found


def _standing(
    sizes: Sizes, what: str, unit: str, least_days: int, least_gain: float
) -> list[tuple[int, str, Still]]:
    found = []
    for key, rows in sizes.items():
        still = standing_still(rows, least_days, least_gain)
        if still is not None:
            gained = f"{what} {still.gain:+.0f} {unit} from {still.since} to {still.until}"
            found.append((key, gained, still))
    return found


def _signs(session: Session, herd: Herd, today: date) -> list[Found]:
    """Each sign once, since it was first seen; a later look-over that found all well ends it."""
    by_tag = {row.tag: row.id for row in herd.rows}
    found: dict[tuple[str, str], date] = {}
    well: set[str] = set()
    for seen in list_signs(session, since=today - timedelta(days=SIGN_DAYS), well_too=True):
        if seen.animal is None or seen.animal in well:
            continue
        if seen.sign == WELL:
            well.add(seen.animal)
        else:
            found[seen.animal, seen.sign] = seen.on
    return [(by_tag[tag], f"seen: {sign}", on) for (tag, sign), on in found.items()]
