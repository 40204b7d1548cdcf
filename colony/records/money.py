"""Prices of what is for sale, and what the house spends."""

from datetime import date
from typing import ClassVar

from sqlmodel import Field, SQLModel

from colony.notation.orders import EXPENSE_KINDS
from colony.notation.words import SEXES
from colony.records.columns import STRICT, checks
from colony.records.rules import (
    Rules,
    has_length,
    in_order,
    is_day,
    not_both,
    not_negative,
    one_of,
    positive,
)


class Price(SQLModel, table=True):
    """What one animal costs, or each animal of a species, line, sex and width."""

    RULES: ClassVar[Rules] = (
        one_of("sex", SEXES),
        positive("from_width_mm"),
        not_negative("price_minor", "price_is_not_negative"),
        is_day("valid_from"),
        is_day("valid_until"),
        in_order("valid_from", "valid_until"),
        has_length("currency", 1, 3, "currency_has_a_length"),
        not_both(
            "animal_id",
            "species_id",
            "of_an_animal_or_a_kind",
            "A price is of one animal or of a kind of animals",
        ),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    animal_id: int | None = Field(
        default=None, foreign_key="animal.id", index=True, description="The one animal."
    )
    species_id: int | None = Field(default=None, foreign_key="species.id")
    line: str | None = Field(default=None, description="The line of the house.")
    sex: str | None = Field(default=None, description="F, M or U; empty for any.")
    from_width_mm: int | None = Field(
        default=None, description="The disc width in mm from which it holds."
    )
    price_minor: int = Field(description="How much, in minor units.")
    currency: str = Field(description="Its ISO 4217 code.")
    valid_from: date = Field(description="The first day.")
    valid_until: date | None = Field(default=None, description="The last day.")


class Expense(SQLModel, table=True):
    """What the house spent on a day, and on what."""

    RULES: ClassVar[Rules] = (
        one_of("kind", EXPENSE_KINDS),
        positive("amount_minor"),
        is_day("spent_on"),
        has_length("currency", 1, 3, "currency_has_a_length"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    spent_on: date = Field(index=True, description="The day.")
    kind: str = Field(description="Food, power, animals, courier, vet, equipment or other.")
    amount_minor: int = Field(description="How much, in minor units.")
    currency: str = Field(description="Its ISO 4217 code.")
    species_id: int | None = Field(default=None, foreign_key="species.id")
    note: str | None = None
