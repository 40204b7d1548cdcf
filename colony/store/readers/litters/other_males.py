"""One male as he was on a day: how old, how wide, and whether he had proved himself."""

from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.planning.litters.other_males import Male
from colony.records import Animal, Litter, Measurement, PossibleSire, Species
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.rows import read_rows


def read_male(session: Session, male: Animal, *, on: date, born: date) -> Male:
    """Read a male on a day; `born` is the birth of the litter in question."""
    species = session.get(Species, male.species_id) if male.species_id else None
    life = read_lives(session).of(species.name if species else None)
    seen = male.mature_since is not None and male.mature_since <= on
    return Male(
        age_days=(on - male.born).days if male.born else None,
        mature_age_days=life.mature_age_days("M"),
        width_mm=_width_mm(session, male, on),
        mature_width_mm=life.mature_width_mm("M"),
        mature_seen=seen or _has_sired(session, male, born),
    )


def _width_mm(session: Session, male: Animal, on: date) -> float | None:
    width = col(Measurement.width_mm)
    until = select(width).where(
        col(Measurement.animal_id) == male.id,
        col(Measurement.measured_on) <= on,
        width.is_not(None),
    )
    rows = read_rows(session, until.order_by(col(Measurement.measured_on).desc()).limit(1))
    return rows[0][0] if rows else None


def _has_sired(session: Session, male: Animal, born: date) -> bool:
    """Whether he is the sole sire of a litter that is no younger."""
    litters = (
        select(func.count())
        .select_from(PossibleSire)
        .join(Litter, col(PossibleSire.litter_id) == col(Litter.id))
        .where(
            col(PossibleSire.sire_id) == male.id,
            col(PossibleSire.share) == 1,
            col(Litter.born) <= born,
        )
    )
    return bool(session.execute(litters).scalar_one())
