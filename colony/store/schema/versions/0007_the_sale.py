"""The sale: buyers, orders, reservations, payments, shipments, prices and expenses.

Revision ID: 0007
"""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade() -> None:
    """Add the tables of the sale."""
    _buyers()
    _orders()
    _kept_and_paid()
    _money()


def _is_day(table: str, column: str) -> sa.CheckConstraint:
    name = op.f(f"ck_{table}_{column}_is_a_day")
    check = sa.CheckConstraint(f"{column} IS date({column}, '+0 days')", name=name)
    return check.ddl_if(dialect="sqlite")


def _buyers() -> None:
    op.create_table(
        "buyer",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("country", sa.String(), nullable=True),
        sa.Column("region", sa.String(), nullable=True),
        sa.Column("papers_until", sa.Date(), nullable=True),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.Column("forgotten_on", sa.Date(), nullable=True),
        sa.Column("person_id", sa.Integer(), nullable=True),
        sa.Column("person_digest", sa.String(), nullable=True),
        _is_day("buyer", "ended_on"),
        _is_day("buyer", "forgotten_on"),
        sa.CheckConstraint(
            "kind IN ('keeper', 'shop', 'breeder', 'institution')",
            name=op.f("ck_buyer_kind_is_known"),
        ),
        _is_day("buyer", "papers_until"),
        sa.CheckConstraint(
            "length(code) BETWEEN 1 AND 40", name=op.f("ck_buyer_code_has_a_length")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_buyer")),
        sa.UniqueConstraint("code", name=op.f("uq_buyer_code")),
        sqlite_strict=True,
    )
    op.create_table(
        "person",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("buyer", sa.String(), nullable=False),
        sa.Column("salt", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("contact", sa.String(), nullable=True),
        sa.Column("address", sa.String(), nullable=True),
        sa.Column("papers", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_person")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_person_buyer"), "person", ["buyer"], unique=False)


def _orders() -> None:
    op.create_table(
        "sale_order",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("buyer_id", sa.Integer(), nullable=False),
        sa.Column("asked_on", sa.Date(), nullable=False),
        sa.Column("needed_by", sa.Date(), nullable=True),
        sa.Column("kinship", sa.Float(), nullable=True),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        _is_day("sale_order", "asked_on"),
        sa.CheckConstraint(
            "length(code) BETWEEN 1 AND 9", name=op.f("ck_sale_order_code_has_a_length")
        ),
        _is_day("sale_order", "needed_by"),
        sa.CheckConstraint(
            "kinship BETWEEN 0 AND 1", name=op.f("ck_sale_order_kinship_is_a_share")
        ),
        sa.CheckConstraint(
            "length(currency) BETWEEN 1 AND 3", name=op.f("ck_sale_order_currency_has_a_length")
        ),
        sa.CheckConstraint(
            "needed_by >= asked_on", name=op.f("ck_sale_order_needed_by_follows_asked_on")
        ),
        sa.ForeignKeyConstraint(["buyer_id"], ["buyer.id"], name=op.f("fk_sale_order_buyer_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sale_order")),
        sa.UniqueConstraint("code", name=op.f("uq_sale_order_code")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_sale_order_buyer_id"), "sale_order", ["buyer_id"], unique=False)
    op.create_table(
        "order_event",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("event", sa.String(), nullable=False),
        sa.Column("happened_on", sa.Date(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "event IN ('offered', 'reserved', 'released', 'deposit', 'paid', 'shipped', 'collected', 'closed', 'cancelled')",
            name=op.f("ck_order_event_event_is_known"),
        ),
        _is_day("order_event", "happened_on"),
        sa.ForeignKeyConstraint(
            ["order_id"], ["sale_order.id"], name=op.f("fk_order_event_order_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_order_event")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_order_event_order_id"), "order_event", ["order_id"], unique=False)
    op.create_table(
        "order_want",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("sex", sa.String(), nullable=False),
        sa.Column("wanted", sa.Integer(), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("line", sa.String(), nullable=True),
        sa.Column("width_mm", sa.Integer(), nullable=True),
        sa.Column("price_minor", sa.Integer(), nullable=True),
        sa.CheckConstraint("sex IN ('F', 'M', 'U')", name=op.f("ck_order_want_sex_is_known")),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_order_want_price_is_not_negative")),
        sa.CheckConstraint("wanted > 0", name=op.f("ck_order_want_wanted_is_positive")),
        sa.CheckConstraint("width_mm > 0", name=op.f("ck_order_want_width_mm_is_positive")),
        sa.ForeignKeyConstraint(
            ["order_id"], ["sale_order.id"], name=op.f("fk_order_want_order_id")
        ),
        sa.ForeignKeyConstraint(
            ["species_id"], ["species.id"], name=op.f("fk_order_want_species_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_order_want")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_order_want_order_id"), "order_want", ["order_id"], unique=False)


def _kept_and_paid() -> None:
    op.create_table(
        "payment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("paid_on", sa.Date(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("amount_minor", sa.Integer(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('deposit', 'payment', 'refund', 'discount')",
            name=op.f("ck_payment_kind_is_known"),
        ),
        _is_day("payment", "paid_on"),
        sa.CheckConstraint("amount_minor > 0", name=op.f("ck_payment_amount_minor_is_positive")),
        sa.ForeignKeyConstraint(["order_id"], ["sale_order.id"], name=op.f("fk_payment_order_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_payment")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_payment_order_id"), "payment", ["order_id"], unique=False)
    op.create_table(
        "reservation",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("since", sa.Date(), nullable=False),
        sa.Column("until", sa.Date(), nullable=True),
        sa.Column("ended_on", sa.Date(), nullable=True),
        _is_day("reservation", "ended_on"),
        _is_day("reservation", "since"),
        _is_day("reservation", "until"),
        sa.CheckConstraint("ended_on >= since", name=op.f("ck_reservation_ended_on_follows_since")),
        sa.CheckConstraint("until >= since", name=op.f("ck_reservation_until_follows_since")),
        sa.ForeignKeyConstraint(
            ["animal_id"], ["animal.id"], name=op.f("fk_reservation_animal_id")
        ),
        sa.ForeignKeyConstraint(
            ["order_id"], ["sale_order.id"], name=op.f("fk_reservation_order_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reservation")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_reservation_animal_id"), "reservation", ["animal_id"], unique=False)
    op.create_index(op.f("ix_reservation_order_id"), "reservation", ["order_id"], unique=False)
    op.create_table(
        "shipment",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("order_id", sa.Integer(), nullable=False),
        sa.Column("leaves_on", sa.Date(), nullable=False),
        sa.Column("hours", sa.Integer(), nullable=False),
        sa.Column("arrived_on", sa.Date(), nullable=True),
        sa.Column("lost", sa.Integer(), nullable=True),
        sa.Column("claim", sa.String(), nullable=True),
        sa.Column("weather", sa.String(), nullable=True),
        _is_day("shipment", "arrived_on"),
        _is_day("shipment", "leaves_on"),
        sa.CheckConstraint(
            "arrived_on >= leaves_on", name=op.f("ck_shipment_arrived_on_follows_leaves_on")
        ),
        sa.CheckConstraint("hours > 0", name=op.f("ck_shipment_hours_is_positive")),
        sa.CheckConstraint("lost >= 0", name=op.f("ck_shipment_lost_is_not_negative")),
        sa.ForeignKeyConstraint(["order_id"], ["sale_order.id"], name=op.f("fk_shipment_order_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_shipment")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_shipment_order_id"), "shipment", ["order_id"], unique=False)


def _money() -> None:
    op.create_table(
        "expense",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("spent_on", sa.Date(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("amount_minor", sa.Integer(), nullable=False),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('food', 'power', 'animals', 'courier', 'vet', 'equipment', 'other')",
            name=op.f("ck_expense_kind_is_known"),
        ),
        _is_day("expense", "spent_on"),
        sa.CheckConstraint("amount_minor > 0", name=op.f("ck_expense_amount_minor_is_positive")),
        sa.CheckConstraint(
            "length(currency) BETWEEN 1 AND 3", name=op.f("ck_expense_currency_has_a_length")
        ),
        sa.ForeignKeyConstraint(["species_id"], ["species.id"], name=op.f("fk_expense_species_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_expense")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_expense_spent_on"), "expense", ["spent_on"], unique=False)
    op.create_table(
        "price",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("line", sa.String(), nullable=True),
        sa.Column("sex", sa.String(), nullable=True),
        sa.Column("from_width_mm", sa.Integer(), nullable=True),
        sa.Column("price_minor", sa.Integer(), nullable=False),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("valid_from", sa.Date(), nullable=False),
        sa.Column("valid_until", sa.Date(), nullable=True),
        sa.CheckConstraint("sex IN ('F', 'M', 'U')", name=op.f("ck_price_sex_is_known")),
        _is_day("price", "valid_from"),
        _is_day("price", "valid_until"),
        sa.CheckConstraint(
            "animal_id IS NULL OR species_id IS NULL", name=op.f("ck_price_of_an_animal_or_a_kind")
        ),
        sa.CheckConstraint("from_width_mm > 0", name=op.f("ck_price_from_width_mm_is_positive")),
        sa.CheckConstraint(
            "length(currency) BETWEEN 1 AND 3", name=op.f("ck_price_currency_has_a_length")
        ),
        sa.CheckConstraint("price_minor >= 0", name=op.f("ck_price_price_is_not_negative")),
        sa.CheckConstraint(
            "valid_until >= valid_from", name=op.f("ck_price_valid_until_follows_valid_from")
        ),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_price_animal_id")),
        sa.ForeignKeyConstraint(["species_id"], ["species.id"], name=op.f("fk_price_species_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_price")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_price_animal_id"), "price", ["animal_id"], unique=False)
