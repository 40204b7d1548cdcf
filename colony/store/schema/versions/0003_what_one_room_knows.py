"""What one room knows binds the others: why a guard was overruled.

Revision ID: 0003
"""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the table of what was done anyway."""
    op.create_table(
        "overruling",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("other_id", sa.Integer(), nullable=True),
        sa.Column("act", sa.String(), nullable=False),
        sa.Column("guard", sa.String(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("decided_on", sa.Date(), nullable=False),
        sa.CheckConstraint(
            "decided_on IS date(decided_on, '+0 days')",
            name=op.f("ck_overruling_decided_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_overruling_animal_id")),
        sa.ForeignKeyConstraint(["other_id"], ["animal.id"], name=op.f("fk_overruling_other_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_overruling")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_overruling_animal_id"), "overruling", ["animal_id"], unique=False)
