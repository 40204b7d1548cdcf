"""How the water of each system is renewed."""

from datetime import date

from sqlalchemy import CheckConstraint
from sqlmodel import Field, SQLModel

from colony.records.columns import STRICT, is_day, positive


class WaterRegime(SQLModel, table=True):
    """How a system's water is renewed: a percentage in a rhythm of days, or a constant drip."""

    __tablename__ = "water_regime"
    __table_args__ = (
        is_day("started"),
        positive("every_days"),
        positive("drip_l_a_day"),
        CheckConstraint("percent > 0 AND percent <= most_percent_a_day", name="percent_in_limit"),
        CheckConstraint("most_percent_a_day BETWEEN 1 AND 100", name="most_is_a_percentage"),
        CheckConstraint("(percent IS NULL) = (every_days IS NULL)", name="batches_have_a_rhythm"),
        CheckConstraint("percent IS NOT NULL OR drip_l_a_day IS NOT NULL", name="water_is_renewed"),
        STRICT,
    )

    id: int | None = Field(default=None, primary_key=True)
    system_id: int = Field(foreign_key="system.id", unique=True)
    started: date
    percent: float | None = None
    every_days: int | None = None
    most_percent_a_day: float = 50
    drip_l_a_day: int | None = None
