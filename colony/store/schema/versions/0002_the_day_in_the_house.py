"""The day in the house: the round, foods, water, look-overs and vet visits.

Revision ID: 0002
"""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make every table of the care."""
    op.create_table(
        "food",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("protein_percent", sa.Float(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "protein_percent BETWEEN 0 AND 100", name=op.f("ck_food_protein_is_a_percentage")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_food")),
        sqlite_strict=True,
    )
    op.create_table(
        "reserve_reading",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("read_on", sa.Date(), nullable=False),
        sa.Column("litres", sa.Integer(), nullable=False),
        sa.CheckConstraint("litres >= 0", name=op.f("ck_reserve_reading_litres_are_not_negative")),
        sa.CheckConstraint(
            "read_on IS date(read_on, '+0 days')", name=op.f("ck_reserve_reading_read_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_reserve_reading")),
        sa.UniqueConstraint("read_on", name=op.f("uq_reserve_reading_read_on")),
        sqlite_strict=True,
    )
    op.create_table(
        "vet_visit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("visited_on", sa.Date(), nullable=False),
        sa.Column("vet", sa.String(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("found", sa.String(), nullable=True),
        sa.CheckConstraint(
            "visited_on IS date(visited_on, '+0 days')",
            name=op.f("ck_vet_visit_visited_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vet_visit")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_vet_visit_visited_on"), "vet_visit", ["visited_on"], unique=False)
    op.create_table(
        "food_batch",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("food_id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("received", sa.Date(), nullable=False),
        sa.Column("expires", sa.Date(), nullable=True),
        sa.Column("finished_on", sa.Date(), nullable=True),
        sa.CheckConstraint(
            "expires IS date(expires, '+0 days')", name=op.f("ck_food_batch_expires_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "finished_on >= received", name=op.f("ck_food_batch_finished_on_follows_received")
        ),
        sa.CheckConstraint(
            "finished_on IS date(finished_on, '+0 days')",
            name=op.f("ck_food_batch_finished_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "received IS date(received, '+0 days')", name=op.f("ck_food_batch_received_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["food_id"], ["food.id"], name=op.f("fk_food_batch_food_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_food_batch")),
        sa.UniqueConstraint("food_id", "code", name=op.f("uq_food_batch_food_id")),
        sqlite_strict=True,
    )
    op.create_table(
        "prescription",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("visit_id", sa.Integer(), nullable=False),
        sa.Column("as_written", sa.String(), nullable=False),
        sa.Column("starts", sa.Date(), nullable=True),
        sa.Column("ends", sa.Date(), nullable=True),
        sa.CheckConstraint("ends >= starts", name=op.f("ck_prescription_ends_follows_starts")),
        sa.CheckConstraint(
            "ends IS date(ends, '+0 days')", name=op.f("ck_prescription_ends_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "starts IS date(starts, '+0 days')", name=op.f("ck_prescription_starts_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["visit_id"], ["vet_visit.id"], name=op.f("fk_prescription_visit_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_prescription")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_prescription_visit_id"), "prescription", ["visit_id"], unique=False)
    op.create_table(
        "water_change",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("changed_on", sa.Date(), nullable=False),
        sa.Column("litres", sa.Integer(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "changed_on IS date(changed_on, '+0 days')",
            name=op.f("ck_water_change_changed_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("litres > 0", name=op.f("ck_water_change_litres_is_positive")),
        sa.ForeignKeyConstraint(
            ["system_id"], ["system.id"], name=op.f("fk_water_change_system_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_change")),
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_water_change_changed_on"), "water_change", ["changed_on"], unique=False
    )
    op.create_index(op.f("ix_water_change_system_id"), "water_change", ["system_id"], unique=False)
    op.create_table(
        "water_limit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("parameter", sa.String(), nullable=False),
        sa.Column("low", sa.Float(), nullable=True),
        sa.Column("high", sa.Float(), nullable=True),
        sa.Column("source", sa.String(), nullable=False),
        sa.CheckConstraint(
            "parameter IN ('temperature_c', 'ph', 'ammonia_mg_l', 'nitrite_mg_l', 'nitrate_mg_l', 'oxygen_mg_l', 'conductivity_us_cm', 'hardness_dgh', 'alkalinity_dkh', 'unionised_ammonia_mg_l')",
            name=op.f("ck_water_limit_parameter_is_known"),
        ),
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
    op.create_index(
        "ux_water_limit_of_all",
        "water_limit",
        ["parameter"],
        unique=True,
        sqlite_where=sa.text("species_id IS NULL"),
        postgresql_where=sa.text("species_id IS NULL"),
    )
    op.create_table(
        "water_regime",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("started", sa.Date(), nullable=False),
        sa.Column("percent", sa.Float(), nullable=True),
        sa.Column("every_days", sa.Integer(), nullable=True),
        sa.Column("most_percent_a_day", sa.Float(), nullable=False),
        sa.Column("drip_l_a_day", sa.Integer(), nullable=True),
        sa.CheckConstraint(
            "(percent IS NULL) = (every_days IS NULL)",
            name=op.f("ck_water_regime_batches_have_a_rhythm"),
        ),
        sa.CheckConstraint(
            "drip_l_a_day > 0", name=op.f("ck_water_regime_drip_l_a_day_is_positive")
        ),
        sa.CheckConstraint("every_days > 0", name=op.f("ck_water_regime_every_days_is_positive")),
        sa.CheckConstraint(
            "most_percent_a_day BETWEEN 1 AND 100",
            name=op.f("ck_water_regime_most_is_a_percentage"),
        ),
        sa.CheckConstraint(
            "percent > 0 AND percent <= most_percent_a_day",
            name=op.f("ck_water_regime_percent_in_limit"),
        ),
        sa.CheckConstraint(
            "percent IS NOT NULL OR drip_l_a_day IS NOT NULL",
            name=op.f("ck_water_regime_water_is_renewed"),
        ),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_water_regime_started_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["system_id"], ["system.id"], name=op.f("fk_water_regime_system_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_regime")),
        sa.UniqueConstraint("system_id", name=op.f("uq_water_regime_system_id")),
        sqlite_strict=True,
    )
    op.create_table(
        "water_test",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("tested_on", sa.Date(), nullable=False),
        sa.Column("parameter", sa.String(), nullable=False),
        sa.Column("value", sa.Float(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "parameter IN ('temperature_c', 'ph', 'ammonia_mg_l', 'nitrite_mg_l', 'nitrate_mg_l', 'oxygen_mg_l', 'conductivity_us_cm', 'hardness_dgh', 'alkalinity_dkh')",
            name=op.f("ck_water_test_parameter_is_known"),
        ),
        sa.CheckConstraint(
            "tested_on IS date(tested_on, '+0 days')", name=op.f("ck_water_test_tested_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("value >= 0", name=op.f("ck_water_test_value_is_not_negative")),
        sa.ForeignKeyConstraint(["system_id"], ["system.id"], name=op.f("fk_water_test_system_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_water_test")),
        sqlite_strict=True,
    )
    op.create_index(
        "ix_water_test_system_parameter",
        "water_test",
        ["system_id", "parameter", "tested_on"],
        unique=False,
    )
    op.create_table(
        "care_done",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("task", sa.String(), nullable=False),
        sa.Column("done_on", sa.Date(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=True),
        sa.Column("system_id", sa.Integer(), nullable=True),
        sa.Column("skipped_why", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "task IN ('headcount', 'look-over', 'feeding', 'clean-up', 'sock check', 'drum check', 'pad swap', 'back-flush', 'water test', 'water change')",
            name=op.f("ck_care_done_task_is_known"),
        ),
        sa.CheckConstraint(
            "(tank_id IS NULL) <> (system_id IS NULL)",
            name=op.f("ck_care_done_at_a_tank_or_a_system"),
        ),
        sa.CheckConstraint(
            "done_on IS date(done_on, '+0 days')", name=op.f("ck_care_done_done_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "length(skipped_why) > 0", name=op.f("ck_care_done_a_skip_has_a_reason")
        ),
        sa.ForeignKeyConstraint(["system_id"], ["system.id"], name=op.f("fk_care_done_system_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_care_done_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_care_done")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_care_done_done_on"), "care_done", ["done_on"], unique=False)
    op.create_index(op.f("ix_care_done_system_id"), "care_done", ["system_id"], unique=False)
    op.create_index(op.f("ix_care_done_tank_id"), "care_done", ["tank_id"], unique=False)
    op.create_table(
        "care_rhythm",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("task", sa.String(), nullable=False),
        sa.Column("started", sa.Date(), nullable=False),
        sa.Column("times_a_day", sa.Integer(), nullable=False),
        sa.Column("every_days", sa.Integer(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=True),
        sa.Column("system_id", sa.Integer(), nullable=True),
        sa.Column("role", sa.String(), nullable=True),
        sa.CheckConstraint(
            "role IN ('breeding', 'nursery', 'grow-out', 'intake', 'hospital')",
            name=op.f("ck_care_rhythm_role_is_known"),
        ),
        sa.CheckConstraint(
            "task IN ('headcount', 'look-over', 'feeding', 'clean-up', 'sock check', 'drum check', 'pad swap', 'back-flush', 'water test', 'water change')",
            name=op.f("ck_care_rhythm_task_is_known"),
        ),
        sa.CheckConstraint(
            "(tank_id IS NULL OR system_id IS NULL) AND (tank_id IS NULL OR role IS NULL) AND (system_id IS NULL OR role IS NULL)",
            name=op.f("ck_care_rhythm_holds_in_one_way"),
        ),
        sa.CheckConstraint("every_days > 0", name=op.f("ck_care_rhythm_every_days_is_positive")),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_care_rhythm_started_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "times_a_day = 1 OR every_days = 1",
            name=op.f("ck_care_rhythm_times_a_day_or_days_apart"),
        ),
        sa.CheckConstraint("times_a_day > 0", name=op.f("ck_care_rhythm_times_a_day_is_positive")),
        sa.ForeignKeyConstraint(
            ["system_id"], ["system.id"], name=op.f("fk_care_rhythm_system_id")
        ),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_care_rhythm_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_care_rhythm")),
        sqlite_strict=True,
    )
    op.create_table(
        "look_over",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("seen_on", sa.Date(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("tank_id", sa.Integer(), nullable=True),
        sa.Column("sign", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "sign IN ('well', 'not eating', 'thin', 'swollen', 'disc edge curled', 'pale', 'red patches', 'wound', 'white film or spots', 'cloudy eye', 'fast breathing', 'lethargic', 'restless', 'tail or sting damaged', 'trailing droppings', 'other')",
            name=op.f("ck_look_over_sign_is_known"),
        ),
        sa.CheckConstraint(
            "(animal_id IS NULL) <> (tank_id IS NULL)",
            name=op.f("ck_look_over_at_an_animal_or_a_tank"),
        ),
        sa.CheckConstraint(
            "seen_on IS date(seen_on, '+0 days')", name=op.f("ck_look_over_seen_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_look_over_animal_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_look_over_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_look_over")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_look_over_animal_id"), "look_over", ["animal_id"], unique=False)
    op.create_index(op.f("ix_look_over_seen_on"), "look_over", ["seen_on"], unique=False)
    op.create_index(op.f("ix_look_over_tank_id"), "look_over", ["tank_id"], unique=False)
    op.create_table(
        "tank_feeding",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=False),
        sa.Column("fed_on", sa.Date(), nullable=False),
        sa.Column("food_id", sa.Integer(), nullable=False),
        sa.Column("batch_id", sa.Integer(), nullable=True),
        sa.Column("offered_g", sa.Integer(), nullable=True),
        sa.Column("taken", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "taken IN ('all', 'some', 'none')", name=op.f("ck_tank_feeding_taken_is_known")
        ),
        sa.CheckConstraint(
            "fed_on IS date(fed_on, '+0 days')", name=op.f("ck_tank_feeding_fed_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("offered_g > 0", name=op.f("ck_tank_feeding_offered_g_is_positive")),
        sa.ForeignKeyConstraint(
            ["batch_id"], ["food_batch.id"], name=op.f("fk_tank_feeding_batch_id")
        ),
        sa.ForeignKeyConstraint(["food_id"], ["food.id"], name=op.f("fk_tank_feeding_food_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_tank_feeding_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tank_feeding")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_tank_feeding_fed_on"), "tank_feeding", ["fed_on"], unique=False)
    op.create_index(op.f("ix_tank_feeding_food_id"), "tank_feeding", ["food_id"], unique=False)
    op.create_index(op.f("ix_tank_feeding_tank_id"), "tank_feeding", ["tank_id"], unique=False)
    op.create_table(
        "vet_patient",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("visit_id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["animal_id"], ["animal.id"], name=op.f("fk_vet_patient_animal_id")
        ),
        sa.ForeignKeyConstraint(
            ["visit_id"], ["vet_visit.id"], name=op.f("fk_vet_patient_visit_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_vet_patient")),
        sa.UniqueConstraint("visit_id", "animal_id", name=op.f("uq_vet_patient_visit_id")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_vet_patient_animal_id"), "vet_patient", ["animal_id"], unique=False)
    op.create_index("ux_food_name", "food", [sa.text("lower(name)")], unique=True)
