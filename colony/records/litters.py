"""Litters: a birth, its counts, and the place."""

from datetime import date

from sqlalchemy import CheckConstraint, Index
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, is_day, is_flag


class Litter(SQLModel, table=True):
    """One birth of one dam. Who may be the sire stands in `PossibleSire`.

    `pups_may_differ` says that each pup may have a sire of its own (multiple paternity);
    otherwise the litter has one sire, even where it is not known which.
    """

    __table_args__ = (
        is_day("born"),
        is_flag("pups_may_differ"),
        CheckConstraint("live >= 0 AND dead >= 0 AND live + dead > 0", name="somebody_was_born"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True)
    dam_id: int = Field(foreign_key="animal.id", index=True)
    pairing_id: int | None = Field(default=None, foreign_key="pairing.id", index=True)
    tank_id: int | None = Field(default=None, foreign_key="tank.id")
    born: date
    live: int
    dead: int = 0
    pups_may_differ: bool = False
    note: str | None = None


class PossibleSire(SQLModel, table=True):
    """One possible sire of a litter, or of an animal from elsewhere; None is somebody unknown.

    The shares of one litter sum to 1; the acts keep that, and `book check` looks again.
    """

    __tablename__ = "possible_sire"
    __table_args__ = (
        CheckConstraint("share > 0 AND share <= 1", name="share_is_a_probability"),
        CheckConstraint(
            "(litter_id IS NULL) <> (animal_id IS NULL)", name="of_a_litter_or_of_an_animal"
        ),
        CheckConstraint("sire_id <> animal_id", name="nobody_is_its_own_sire"),
        Index("ux_possible_sire_of_litter", "litter_id", "sire_id", unique=True),
        Index("ux_possible_sire_of_animal", "animal_id", "sire_id", unique=True),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    litter_id: int | None = Field(default=None, foreign_key="litter.id")
    animal_id: int | None = Field(default=None, foreign_key="animal.id")
    sire_id: int | None = Field(default=None, foreign_key="animal.id", index=True)
    share: float
