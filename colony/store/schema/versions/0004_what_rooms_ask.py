"""What one room asks of another: a mating sign without a pairing, and answers to alarms.

Revision ID: 0004
"""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Let a mating sign be of a dam alone; keep what was done about an alarm."""
    _mating_signs()
    _alarm_answers()


def _alarm_answers() -> None:
    op.create_table(
        "alarm_answer",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("alarm", sa.String(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("evidence", sa.String(), nullable=False),
        sa.Column("answered_on", sa.Date(), nullable=False),
        sa.Column("answer", sa.String(), nullable=False),
        sa.CheckConstraint(
            "answered_on IS date(answered_on, '+0 days')",
            name=op.f("ck_alarm_answer_answered_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_alarm_answer")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_alarm_answer_place"), "alarm_answer", ["place"], unique=False)


def _mating_signs() -> None:
    if op.get_bind().dialect.name == "postgresql":
        op.add_column("mating_sign", sa.Column("dam_id", sa.Integer(), nullable=True))
        op.alter_column("mating_sign", "pairing_id", nullable=True)
        op.create_foreign_key(
            op.f("fk_mating_sign_dam_id"), "mating_sign", "animal", ["dam_id"], ["id"]
        )
        op.create_check_constraint(
            op.f("ck_mating_sign_of_a_pairing_or_of_a_dam"),
            "mating_sign",
            "(pairing_id IS NULL) <> (dam_id IS NULL)",
        )
        op.create_index(op.f("ix_mating_sign_dam_id"), "mating_sign", ["dam_id"], unique=False)
        return
    # SQLite changes no column in place: the table is made anew, and its rows are carried over.
    op.execute("ALTER TABLE mating_sign RENAME TO mating_sign_before")
    op.create_table(
        "mating_sign",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pairing_id", sa.Integer(), nullable=True),
        sa.Column("seen_on", sa.Date(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("sire_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.Column("dam_id", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "(pairing_id IS NULL) <> (dam_id IS NULL)",
            name=op.f("ck_mating_sign_of_a_pairing_or_of_a_dam"),
        ),
        sa.CheckConstraint(
            "kind IN ('bite marks', 'copulation', 'courtship')",
            name=op.f("ck_mating_sign_kind_is_known"),
        ),
        sa.CheckConstraint(
            "seen_on IS date(seen_on, '+0 days')", name=op.f("ck_mating_sign_seen_on_is_a_day")
        ),
        sa.ForeignKeyConstraint(["dam_id"], ["animal.id"], name=op.f("fk_mating_sign_dam_id")),
        sa.ForeignKeyConstraint(
            ["pairing_id"], ["pairing.id"], name=op.f("fk_mating_sign_pairing_id")
        ),
        sa.ForeignKeyConstraint(["sire_id"], ["animal.id"], name=op.f("fk_mating_sign_sire_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_mating_sign")),
        sqlite_strict=True,
    )
    op.execute(
        "INSERT INTO mating_sign (id, pairing_id, seen_on, kind, sire_id, note) "
        "SELECT id, pairing_id, seen_on, kind, sire_id, note FROM mating_sign_before"
    )
    op.drop_table("mating_sign_before")
    op.create_index(op.f("ix_mating_sign_dam_id"), "mating_sign", ["dam_id"], unique=False)
    op.create_index(op.f("ix_mating_sign_pairing_id"), "mating_sign", ["pairing_id"], unique=False)
