"""What one room asks of another: a sign without a pairing, answers to alarms, more water tests.

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
    _water()


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


_TESTED = (
    "'temperature_c', 'ph', 'ammonia_mg_l', 'nitrite_mg_l', 'nitrate_mg_l', 'oxygen_mg_l', "
    "'conductivity_us_cm', 'hardness_dgh', 'alkalinity_dkh', 'ammonia_nh3_mg_l', 'chlorine_mg_l'"
)


def _water() -> None:
    """Test for total ammonia as NH3 and for chlorine, and set limits of them."""
    allowed = {
        "water_test": f"parameter IN ({_TESTED})",
        "water_limit": f"parameter IN ({_TESTED}, 'unionised_ammonia_mg_l')",
    }
    if op.get_bind().dialect.name == "postgresql":
        for table, check in allowed.items():
            name = op.f(f"ck_{table}_parameter_is_known")
            op.drop_constraint(name, table, type_="check")
            op.create_check_constraint(name, table, check)
        return
    for table in allowed:
        op.execute(f"ALTER TABLE {table} RENAME TO {table}_before")
    op.drop_index("ux_water_limit_of_all", "water_limit_before")
    op.drop_index("ix_water_test_system_parameter", "water_test_before")
    op.create_table(
        "water_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("tested_on", sa.Date(), nullable=False),
        sa.Column("parameter", sa.String(), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(allowed["water_test"], name=op.f("ck_water_test_parameter_is_known")),
        sa.CheckConstraint(
            "tested_on IS date(tested_on, '+0 days')", name=op.f("ck_water_test_tested_on_is_a_day")
        ),
        sa.CheckConstraint("value >= 0", name=op.f("ck_water_test_value_is_not_negative")),
        sa.ForeignKeyConstraint(["system_id"], ["system.id"], name=op.f("fk_water_test_system_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_test")),
        sqlite_strict=True,
    )
    op.create_table(
        "water_limit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("parameter", sa.String(), nullable=False),
        sa.Column("low", sa.Float(), nullable=True),
        sa.Column("high", sa.Float(), nullable=True),
        sa.Column("source", sa.String(), nullable=False),
        sa.CheckConstraint(allowed["water_limit"], name=op.f("ck_water_limit_parameter_is_known")),
        sa.CheckConstraint("low < high", name=op.f("ck_water_limit_low_is_below_high")),
        sa.CheckConstraint(
            "low IS NOT NULL OR high IS NOT NULL", name=op.f("ck_water_limit_bounds_something")
        ),
        sa.ForeignKeyConstraint(
            ["species_id"], ["species.id"], name=op.f("fk_water_limit_species_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_limit")),
        sa.UniqueConstraint("species_id", "parameter", name=op.f("uq_water_limit_species_id")),
        sqlite_strict=True,
    )
    op.execute(
        "INSERT INTO water_test (id, system_id, tested_on, parameter, value, note) "
        "SELECT id, system_id, tested_on, parameter, value, note FROM water_test_before"
    )
    op.execute(
        "INSERT INTO water_limit (id, species_id, parameter, low, high, source) "
        "SELECT id, species_id, parameter, low, high, source FROM water_limit_before"
    )
    for table in allowed:
        op.drop_table(f"{table}_before")
    op.create_index(
        "ux_water_limit_of_all",
        "water_limit",
        ["parameter"],
        unique=True,
        sqlite_where=sa.text("species_id IS NULL"),
    )
    op.create_index(
        "ix_water_test_system_parameter",
        "water_test",
        ["system_id", "parameter", "tested_on"],
        unique=False,
    )


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
