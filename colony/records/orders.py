"""The sale: buyers, what they asked for, what happened to it, what is kept for them and paid."""

from datetime import date
from typing import ClassVar

from sqlmodel import Field, SQLModel

from colony.notation.orders import BUYER_KINDS, ORDER_EVENTS, PAYMENT_KINDS
from colony.notation.words import SEXES
from colony.records.columns import STRICT, checks
from colony.records.rules import (
    Rules,
    between,
    has_length,
    in_order,
    is_day,
    not_negative,
    one_of,
    positive,
)


class Person(SQLModel, table=True):
    """What a buyer is to be known by: never in the journal, and taken away when they ask.

    A row is not changed: what is said anew is a new row, so that an act can be undone by the
    number alone that the buyer has of it.
    """

    __table_args__ = (STRICT,)

    id: int | None = Field(default=None, primary_key=True)
    buyer: str = Field(index=True, description="The code of the buyer whose data this is.")
    salt: str = Field(description="What makes the digest that the journal has unguessable.")
    name: str = Field(description="Who it is.")
    contact: str | None = Field(default=None, description="How to reach them.")
    address: str | None = Field(default=None, description="Where the animals go.")
    papers: str | None = Field(default=None, description="The permits and papers that they hold.")
    note: str | None = None


class Buyer(SQLModel, table=True):
    """Who buys; the name and all that is personal stands in `Person`."""

    RULES: ClassVar[Rules] = (
        one_of("kind", BUYER_KINDS),
        is_day("papers_until"),
        is_day("ended_on"),
        is_day("forgotten_on"),
        has_length("code", 1, 40, "code_has_a_length"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True, description="What files and the journal call the buyer.")
    kind: str = Field(description="Keeper, shop, breeder or institution.")
    country: str | None = Field(default=None, description="The country the animals go to.")
    region: str | None = Field(default=None, description="The state or region within it.")
    papers_until: date | None = Field(
        default=None, description="The last day on which their papers hold."
    )
    ended_on: date | None = Field(
        default=None, description="The day from which nothing more is sold to them."
    )
    forgotten_on: date | None = Field(
        default=None, description="The day on which their personal data was taken out."
    )
    person_id: int | None = Field(
        default=None, description="The number of the row of `person` that holds; no key."
    )
    person_digest: str | None = Field(
        default=None, description="The SHA-256 of that row with its salt: what the journal has."
    )


class Order(SQLModel, table=True):
    """What a buyer asked for on a day; its state is made of its events."""

    __tablename__ = "sale_order"
    RULES: ClassVar[Rules] = (
        is_day("asked_on"),
        is_day("needed_by"),
        in_order("asked_on", "needed_by"),
        between("kinship", 0, 1, "kinship_is_a_share"),
        has_length("code", 1, 9, "code_has_a_length"),
        has_length("currency", 1, 3, "currency_has_a_length"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    code: str = Field(unique=True, description="The number of the order.")
    buyer_id: int = Field(foreign_key="buyer.id", index=True, description="Who asked.")
    asked_on: date = Field(description="The day on which it was asked for.")
    needed_by: date | None = Field(default=None, description="The last day that will do.")
    kinship: float | None = Field(
        default=None,
        description="The greatest kinship of two of the set, and with what the buyer has of us.",
    )
    currency: str = Field(description="The ISO 4217 code of its prices and payments.")
    note: str | None = None


class OrderWant(SQLModel, table=True):
    """So many of one sex, and of what."""

    __tablename__ = "order_want"
    RULES: ClassVar[Rules] = (
        one_of("sex", SEXES),
        positive("wanted"),
        positive("width_mm"),
        not_negative("price_minor", "price_is_not_negative"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    order_id: int = Field(foreign_key="sale_order.id", index=True, description="The order.")
    sex: str = Field(description="F, M, or U where any will do.")
    wanted: int = Field(description="How many.")
    species_id: int | None = Field(default=None, foreign_key="species.id")
    line: str | None = Field(default=None, description="Of which line of the house.")
    width_mm: int | None = Field(default=None, description="The least disc width in mm.")
    price_minor: int | None = Field(
        default=None, description="The price of each, in minor units of the order's currency."
    )


class OrderEvent(SQLModel, table=True):
    """What happened to an order on a day."""

    __tablename__ = "order_event"
    RULES: ClassVar[Rules] = (one_of("event", ORDER_EVENTS), is_day("happened_on"))
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    order_id: int = Field(foreign_key="sale_order.id", index=True, description="The order.")
    event: str = Field(description="Which of the events of an order.")
    happened_on: date = Field(description="The day.")
    note: str | None = None


class Reservation(SQLModel, table=True):
    """An animal kept for an order from a day on; open until it ends, or its last day is over."""

    RULES: ClassVar[Rules] = (
        is_day("since"),
        is_day("until"),
        is_day("ended_on"),
        in_order("since", "until"),
        in_order("since", "ended_on"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    order_id: int = Field(foreign_key="sale_order.id", index=True, description="The order.")
    animal_id: int = Field(foreign_key="animal.id", index=True)
    since: date = Field(description="The first day.")
    until: date | None = Field(
        default=None, description="The last day; empty until it is released or sold."
    )
    ended_on: date | None = Field(
        default=None, description="The day on which it was released, or the animal was sold."
    )


class Payment(SQLModel, table=True):
    """Money for an order, or what was let off."""

    RULES: ClassVar[Rules] = (
        one_of("kind", PAYMENT_KINDS),
        is_day("paid_on"),
        positive("amount_minor"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    order_id: int = Field(foreign_key="sale_order.id", index=True, description="The order.")
    paid_on: date = Field(description="The day.")
    kind: str = Field(description="Deposit, payment, refund or discount.")
    amount_minor: int = Field(description="How much, in minor units of the order's currency.")
    note: str | None = None


class Shipment(SQLModel, table=True):
    """The journey of an order's animals: when they leave, how long it takes, how they came."""

    RULES: ClassVar[Rules] = (
        is_day("leaves_on"),
        is_day("arrived_on"),
        in_order("leaves_on", "arrived_on"),
        positive("hours"),
        not_negative("lost", "lost_is_not_negative"),
    )
    __table_args__ = (*checks(RULES), STRICT)

    id: int | None = Field(default=None, primary_key=True)
    order_id: int = Field(foreign_key="sale_order.id", index=True, description="The order.")
    leaves_on: date = Field(description="The day on which they leave the house.")
    hours: int = Field(description="How long the journey takes, door to door.")
    arrived_on: date | None = Field(default=None, description="The day on which they came.")
    lost: int | None = Field(default=None, description="How many did not live to arrive.")
    claim: str | None = Field(default=None, description="What was claimed, and of whom.")
    weather: str | None = Field(
        default=None, description="Cold or heat on the way, as the breeder heard of it."
    )
