"""Species, and what is known of the life of each: every number beside its source."""

from typing import ClassVar

from sqlalchemy import UniqueConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, checks
from colony.records.rules import Rules, positive

FAMILY = "family"
"""The species whose numbers stand in for what another does not say."""

TRAITS = {
    "gestation_low_days": "shortest gestation",
    "gestation_likely_days": "likely gestation",
    "gestation_high_days": "longest gestation",
    "litter_low": "fewest pups in a litter",
    "litter_high": "most pups in a litter",
    "birth_width_mm": "disc width at birth",
    "mature_width_female_mm": "disc width of a mature female",
    "mature_width_male_mm": "disc width of a mature male",
    "mature_age_female_days": "age of a mature female",
    "mature_age_male_days": "age of a mature male",
    "asymptotic_width_female_mm": "asymptotic disc width, female",
    "asymptotic_width_male_mm": "asymptotic disc width, male",
    "growth_rate_female_per_year": "von Bertalanffy rate k, female",
    "growth_rate_male_per_year": "von Bertalanffy rate k, male",
    "rest_days": "rest of a female after a birth",
    "ready_age_days": "age of a pup ready for sale",
    "ready_width_mm": "disc width of a pup ready for sale",
    "ready_foods": "foods a pup takes before sale",
    "ready_feeding_days": "days a pup has fed before sale",
}
"""Each life-history trait that the planners read, and what it is."""


class Species(SQLModel, table=True):
    """A species of ray; `name` is the short word the breeder types."""

    __table_args__ = (STRICT,)

    id: int | None = Field(default=None, primary_key=True)
    name: str = Field(unique=True)
    scientific_name: str
    english_name: str | None = None


class LifeHistory(SQLModel, table=True):
    """One number of one species and where it comes from."""

    __tablename__ = "life_history"
    RULES: ClassVar[Rules] = (positive("number"),)
    __table_args__ = (*checks(RULES), UniqueConstraint("species_id", "trait"), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    species_id: int = Field(foreign_key="species.id")
    trait: str
    number: float
    source: str
