"""The first book.

Revision ID: 0001
"""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

_OVERLAP = """EXISTS (
    SELECT 1 FROM placement AS other
    WHERE other.animal_id = NEW.animal_id AND other.id IS NOT NEW.id
    AND other.entered_on < coalesce(NEW.left_on, '9999-12-31')
    AND NEW.entered_on < coalesce(other.left_on, '9999-12-31'))"""

RULES = {
    "sqlite": [
        *(
            f"CREATE TRIGGER one_tank_a_day_{moment} BEFORE {moment} ON placement WHEN {_OVERLAP}"
            " BEGIN SELECT RAISE(ABORT, 'one tank a day: the animal is in another tank then'); END"
            for moment in ("INSERT", "UPDATE")
        ),
        *(
            f"CREATE TRIGGER journal_is_append_only_{moment} BEFORE {moment} ON journal"
            " BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END"
            for moment in ("UPDATE", "DELETE")
        ),
    ],
    "postgresql": [
        "CREATE EXTENSION IF NOT EXISTS btree_gist",
        (
            "ALTER TABLE placement ADD CONSTRAINT one_tank_a_day EXCLUDE USING gist"
            " (animal_id WITH =, daterange(entered_on, left_on) WITH &&)"
        ),
        (
            "CREATE FUNCTION journal_is_append_only() RETURNS trigger LANGUAGE plpgsql AS"
            " $$ BEGIN RAISE EXCEPTION 'the journal is append-only'; END $$"
        ),
        (
            "CREATE TRIGGER journal_is_append_only BEFORE UPDATE OR DELETE ON journal"
            " FOR EACH ROW EXECUTE FUNCTION journal_is_append_only()"
        ),
    ],
}
"""Per database: no animal in two tanks on one day, and a journal that only grows."""


def upgrade() -> None:
    """Make every table, then the rules that no column can hold by itself."""
    op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("who", sa.String(), nullable=False),
        sa.Column("act", sa.String(), nullable=False),
        sa.Column("summary", sa.String(), nullable=False),
        sa.Column("changes", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal")),
        sqlite_strict=True,
    )
    op.create_table(
        "setting",
        sa.Column("key", sa.String(), nullable=False),
        sa.Column("value", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_setting")),
        sqlite_strict=True,
    )
    op.create_table(
        "species",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("scientific_name", sa.String(), nullable=False),
        sa.Column("english_name", sa.String(), nullable=True),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_species")),
        sa.UniqueConstraint("name", name=op.f("uq_species_name")),
        sqlite_strict=True,
    )
    op.create_table(
        "system",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("volume_l", sa.Integer(), nullable=True),
        sa.Column("started", sa.Date(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_system_started_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("volume_l > 0", name=op.f("ck_system_volume_l_is_positive")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_system")),
        sa.UniqueConstraint("name", name=op.f("uq_system_name")),
        sqlite_strict=True,
    )
    op.create_table(
        "animal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("tag", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=True),
        sa.Column("species_id", sa.Integer(), nullable=True),
        sa.Column("sex", sa.String(), nullable=False),
        sa.Column("born", sa.Date(), nullable=True),
        sa.Column("born_precision", sa.String(), nullable=False),
        sa.Column("origin", sa.String(), nullable=False),
        sa.Column("arrived", sa.Date(), nullable=True),
        sa.Column("arrived_from", sa.String(), nullable=True),
        sa.Column("dam_id", sa.Integer(), nullable=True),
        sa.Column("sire_id", sa.Integer(), nullable=True),
        sa.Column("litter_id", sa.Integer(), nullable=True),
        sa.Column("transponder", sa.String(), nullable=True),
        sa.Column("line", sa.String(), nullable=True),
        sa.Column("held_back", sa.Boolean(), nullable=False),
        sa.Column("reserved_for", sa.String(), nullable=True),
        sa.Column("breeding_ban", sa.String(), nullable=True),
        sa.Column("mature_since", sa.Date(), nullable=True),
        sa.Column("status", sa.String(), nullable=False),
        sa.Column("ended_on", sa.Date(), nullable=True),
        sa.Column("ended_why", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "(status = 'present') = (ended_on IS NULL)", name=op.f("ck_animal_an_end_has_a_day")
        ),
        sa.CheckConstraint(
            "born_precision IN ('day', 'month', 'year')",
            name=op.f("ck_animal_born_precision_is_known"),
        ),
        sa.CheckConstraint(
            "origin IN ('born here', 'bred elsewhere', 'wild', 'unknown')",
            name=op.f("ck_animal_origin_is_known"),
        ),
        sa.CheckConstraint("sex IN ('F', 'M', 'U')", name=op.f("ck_animal_sex_is_known")),
        sa.CheckConstraint(
            "status IN ('present', 'sold', 'died', 'gone')", name=op.f("ck_animal_status_is_known")
        ),
        sa.CheckConstraint(
            "arrived IS date(arrived, '+0 days')", name=op.f("ck_animal_arrived_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "born IS date(born, '+0 days')", name=op.f("ck_animal_born_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "dam_id <> id AND sire_id <> id", name=op.f("ck_animal_nobody_is_its_own_parent")
        ),
        sa.CheckConstraint("ended_on >= born", name=op.f("ck_animal_ended_on_follows_born")),
        sa.CheckConstraint(
            "ended_on IS date(ended_on, '+0 days')", name=op.f("ck_animal_ended_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "held_back IN (true, false)", name=op.f("ck_animal_held_back_is_yes_or_no")
        ),
        sa.CheckConstraint("length(tag) BETWEEN 1 AND 40", name=op.f("ck_animal_tag_has_a_length")),
        sa.CheckConstraint(
            "length(transponder) = 15", name=op.f("ck_animal_transponder_has_15_digits")
        ),
        sa.CheckConstraint(
            "litter_id IS NULL OR dam_id IS NULL", name=op.f("ck_animal_the_litter_knows_the_dam")
        ),
        sa.CheckConstraint(
            "mature_since IS date(mature_since, '+0 days')",
            name=op.f("ck_animal_mature_since_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["dam_id"],
            ["animal.id"],
            name=op.f("fk_animal_dam_id"),
            initially="DEFERRED",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(
            ["litter_id"],
            ["litter.id"],
            name=op.f("fk_animal_litter_id"),
            initially="DEFERRED",
            deferrable=True,
            use_alter=True,
        ),
        sa.ForeignKeyConstraint(
            ["sire_id"],
            ["animal.id"],
            name=op.f("fk_animal_sire_id"),
            initially="DEFERRED",
            deferrable=True,
        ),
        sa.ForeignKeyConstraint(["species_id"], ["species.id"], name=op.f("fk_animal_species_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_animal")),
        sa.UniqueConstraint("transponder", name=op.f("uq_animal_transponder")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_animal_born"), "animal", ["born"], unique=False)
    op.create_index(op.f("ix_animal_dam_id"), "animal", ["dam_id"], unique=False)
    op.create_index(op.f("ix_animal_litter_id"), "animal", ["litter_id"], unique=False)
    op.create_index(op.f("ix_animal_sire_id"), "animal", ["sire_id"], unique=False)
    op.create_index(op.f("ix_animal_species_id"), "animal", ["species_id"], unique=False)
    op.create_index(op.f("ix_animal_status"), "animal", ["status"], unique=False)
    op.create_table(
        "life_history",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("species_id", sa.Integer(), nullable=False),
        sa.Column("trait", sa.String(), nullable=False),
        sa.Column("number", sa.Float(), nullable=False),
        sa.Column("source", sa.String(), nullable=False),
        sa.CheckConstraint("number > 0", name=op.f("ck_life_history_number_is_positive")),
        sa.ForeignKeyConstraint(
            ["species_id"], ["species.id"], name=op.f("fk_life_history_species_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_life_history")),
        sa.UniqueConstraint("species_id", "trait", name=op.f("uq_life_history_species_id")),
        sqlite_strict=True,
    )
    op.create_table(
        "tank",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("system_id", sa.Integer(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("length_mm", sa.Integer(), nullable=True),
        sa.Column("width_mm", sa.Integer(), nullable=True),
        sa.Column("diameter_mm", sa.Integer(), nullable=True),
        sa.Column("water_height_mm", sa.Integer(), nullable=True),
        sa.Column("volume_l", sa.Integer(), nullable=True),
        sa.Column("walking_order", sa.Integer(), nullable=True),
        sa.Column("retired_on", sa.Date(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "role IN ('breeding', 'nursery', 'grow-out', 'intake', 'hospital')",
            name=op.f("ck_tank_role_is_known"),
        ),
        sa.CheckConstraint(
            "(length_mm IS NULL) = (width_mm IS NULL) AND (length_mm IS NULL) <> (diameter_mm IS NULL)",
            name=op.f("ck_tank_is_rectangular_or_round"),
        ),
        sa.CheckConstraint("diameter_mm > 0", name=op.f("ck_tank_diameter_mm_is_positive")),
        sa.CheckConstraint("length_mm > 0", name=op.f("ck_tank_length_mm_is_positive")),
        sa.CheckConstraint(
            "retired_on IS date(retired_on, '+0 days')", name=op.f("ck_tank_retired_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("volume_l > 0", name=op.f("ck_tank_volume_l_is_positive")),
        sa.CheckConstraint("water_height_mm > 0", name=op.f("ck_tank_water_height_mm_is_positive")),
        sa.CheckConstraint("width_mm > 0", name=op.f("ck_tank_width_mm_is_positive")),
        sa.ForeignKeyConstraint(["system_id"], ["system.id"], name=op.f("fk_tank_system_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_tank")),
        sa.UniqueConstraint("code", name=op.f("uq_tank_code")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_tank_system_id"), "tank", ["system_id"], unique=False)
    op.create_table(
        "feeding",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("fed_on", sa.Date(), nullable=False),
        sa.Column("food", sa.String(), nullable=False),
        sa.Column("took", sa.Boolean(), nullable=False),
        sa.CheckConstraint(
            "fed_on IS date(fed_on, '+0 days')", name=op.f("ck_feeding_fed_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("took IN (true, false)", name=op.f("ck_feeding_took_is_yes_or_no")),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_feeding_animal_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_feeding")),
        sa.UniqueConstraint("animal_id", "fed_on", "food", name=op.f("uq_feeding_animal_id")),
        sqlite_strict=True,
    )
    op.create_table(
        "hold",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("started", sa.Date(), nullable=False),
        sa.Column("ended", sa.Date(), nullable=True),
        sa.Column("why", sa.String(), nullable=False),
        sa.CheckConstraint("ended >= started", name=op.f("ck_hold_ended_follows_started")),
        sa.CheckConstraint(
            "ended IS date(ended, '+0 days')", name=op.f("ck_hold_ended_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_hold_started_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_hold_animal_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_hold")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_hold_animal_id"), "hold", ["animal_id"], unique=False)
    op.create_table(
        "measurement",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("measured_on", sa.Date(), nullable=False),
        sa.Column("width_mm", sa.Integer(), nullable=True),
        sa.Column("mass_g", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint("mass_g > 0", name=op.f("ck_measurement_mass_g_is_positive")),
        sa.CheckConstraint(
            "measured_on IS date(measured_on, '+0 days')",
            name=op.f("ck_measurement_measured_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("width_mm > 0", name=op.f("ck_measurement_width_mm_is_positive")),
        sa.CheckConstraint(
            "width_mm IS NOT NULL OR mass_g IS NOT NULL",
            name=op.f("ck_measurement_something_was_measured"),
        ),
        sa.ForeignKeyConstraint(
            ["animal_id"], ["animal.id"], name=op.f("fk_measurement_animal_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_measurement")),
        sa.UniqueConstraint("animal_id", "measured_on", name=op.f("uq_measurement_animal_id")),
        sqlite_strict=True,
    )
    op.create_table(
        "move_to_do",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=False),
        sa.Column("accepted_on", sa.Date(), nullable=False),
        sa.Column("due_by", sa.Date(), nullable=False),
        sa.Column("why", sa.String(), nullable=False),
        sa.Column("done_on", sa.Date(), nullable=True),
        sa.Column("dropped_on", sa.Date(), nullable=True),
        sa.CheckConstraint(
            "accepted_on IS date(accepted_on, '+0 days')",
            name=op.f("ck_move_to_do_accepted_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "due_by IS date(due_by, '+0 days')", name=op.f("ck_move_to_do_due_by_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "done_on IS date(done_on, '+0 days')", name=op.f("ck_move_to_do_done_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "done_on IS NULL OR dropped_on IS NULL", name=op.f("ck_move_to_do_done_or_dropped")
        ),
        sa.CheckConstraint(
            "dropped_on IS date(dropped_on, '+0 days')",
            name=op.f("ck_move_to_do_dropped_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_move_to_do_animal_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_move_to_do_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_move_to_do")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_move_to_do_animal_id"), "move_to_do", ["animal_id"], unique=False)
    op.create_table(
        "pairing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("dam_id", sa.Integer(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=True),
        sa.Column("started", sa.Date(), nullable=False),
        sa.Column("ended", sa.Date(), nullable=True),
        sa.Column("purpose", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint("ended >= started", name=op.f("ck_pairing_ended_follows_started")),
        sa.CheckConstraint(
            "ended IS date(ended, '+0 days')", name=op.f("ck_pairing_ended_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_pairing_started_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["dam_id"], ["animal.id"], name=op.f("fk_pairing_dam_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_pairing_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pairing")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_pairing_dam_id"), "pairing", ["dam_id"], unique=False)
    op.create_table(
        "placement",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("animal_id", sa.Integer(), nullable=False),
        sa.Column("tank_id", sa.Integer(), nullable=False),
        sa.Column("entered_on", sa.Date(), nullable=False),
        sa.Column("left_on", sa.Date(), nullable=True),
        sa.Column("why", sa.String(), nullable=True),
        sa.CheckConstraint(
            "entered_on IS date(entered_on, '+0 days')",
            name=op.f("ck_placement_entered_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint("left_on > entered_on", name=op.f("ck_placement_leaves_after_entering")),
        sa.CheckConstraint(
            "left_on IS date(left_on, '+0 days')", name=op.f("ck_placement_left_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(["animal_id"], ["animal.id"], name=op.f("fk_placement_animal_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_placement_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_placement")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_placement_animal_id"), "placement", ["animal_id"], unique=False)
    op.create_index(op.f("ix_placement_tank_id"), "placement", ["tank_id"], unique=False)
    op.create_index(
        "ux_placement_open",
        "placement",
        ["animal_id"],
        unique=True,
        sqlite_where=sa.text("left_on IS NULL"),
        postgresql_where=sa.text("left_on IS NULL"),
    )
    op.create_table(
        "pregnancy_finding",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("dam_id", sa.Integer(), nullable=False),
        sa.Column("found_on", sa.Date(), nullable=False),
        sa.Column("finding", sa.String(), nullable=False),
        sa.Column("method", sa.String(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "finding IN ('pregnant', 'nothing seen', 'unsure', 'false alarm', 'aborted')",
            name=op.f("ck_pregnancy_finding_finding_is_known"),
        ),
        sa.CheckConstraint(
            "method IN ('look', 'ultrasound', 'palpation by vet', 'other')",
            name=op.f("ck_pregnancy_finding_method_is_known"),
        ),
        sa.CheckConstraint(
            "found_on IS date(found_on, '+0 days')",
            name=op.f("ck_pregnancy_finding_found_on_is_a_day"),
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["dam_id"], ["animal.id"], name=op.f("fk_pregnancy_finding_dam_id")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pregnancy_finding")),
        sqlite_strict=True,
    )
    op.create_index(
        op.f("ix_pregnancy_finding_dam_id"), "pregnancy_finding", ["dam_id"], unique=False
    )
    op.create_table(
        "litter",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("dam_id", sa.Integer(), nullable=False),
        sa.Column("pairing_id", sa.Integer(), nullable=True),
        sa.Column("tank_id", sa.Integer(), nullable=True),
        sa.Column("born", sa.Date(), nullable=False),
        sa.Column("live", sa.Integer(), nullable=False),
        sa.Column("dead", sa.Integer(), nullable=False),
        sa.Column("pups_may_differ", sa.Boolean(), nullable=False),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "born IS date(born, '+0 days')", name=op.f("ck_litter_born_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.CheckConstraint(
            "live >= 0 AND dead >= 0 AND live + dead > 0", name=op.f("ck_litter_somebody_was_born")
        ),
        sa.CheckConstraint(
            "pups_may_differ IN (true, false)", name=op.f("ck_litter_pups_may_differ_is_yes_or_no")
        ),
        sa.ForeignKeyConstraint(["dam_id"], ["animal.id"], name=op.f("fk_litter_dam_id")),
        sa.ForeignKeyConstraint(["pairing_id"], ["pairing.id"], name=op.f("fk_litter_pairing_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_litter_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_litter")),
        sa.UniqueConstraint("code", name=op.f("uq_litter_code")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_litter_dam_id"), "litter", ["dam_id"], unique=False)
    op.create_index(op.f("ix_litter_pairing_id"), "litter", ["pairing_id"], unique=False)
    op.create_table(
        "mating_sign",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pairing_id", sa.Integer(), nullable=False),
        sa.Column("seen_on", sa.Date(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("sire_id", sa.Integer(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.CheckConstraint(
            "kind IN ('bite marks', 'copulation', 'courtship')",
            name=op.f("ck_mating_sign_kind_is_known"),
        ),
        sa.CheckConstraint(
            "seen_on IS date(seen_on, '+0 days')", name=op.f("ck_mating_sign_seen_on_is_a_day")
        ).ddl_if(dialect="sqlite"),
        sa.ForeignKeyConstraint(
            ["pairing_id"], ["pairing.id"], name=op.f("fk_mating_sign_pairing_id")
        ),
        sa.ForeignKeyConstraint(["sire_id"], ["animal.id"], name=op.f("fk_mating_sign_sire_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_mating_sign")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_mating_sign_pairing_id"), "mating_sign", ["pairing_id"], unique=False)
    op.create_table(
        "pairing_sire",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("pairing_id", sa.Integer(), nullable=False),
        sa.Column("sire_id", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(
            ["pairing_id"], ["pairing.id"], name=op.f("fk_pairing_sire_pairing_id")
        ),
        sa.ForeignKeyConstraint(["sire_id"], ["animal.id"], name=op.f("fk_pairing_sire_sire_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pairing_sire")),
        sa.UniqueConstraint("pairing_id", "sire_id", name=op.f("uq_pairing_sire_pairing_id")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_pairing_sire_sire_id"), "pairing_sire", ["sire_id"], unique=False)
    op.create_table(
        "possible_sire",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("litter_id", sa.Integer(), nullable=True),
        sa.Column("animal_id", sa.Integer(), nullable=True),
        sa.Column("sire_id", sa.Integer(), nullable=True),
        sa.Column("share", sa.Float(), nullable=False),
        sa.CheckConstraint(
            "(litter_id IS NULL) <> (animal_id IS NULL)",
            name=op.f("ck_possible_sire_of_a_litter_or_of_an_animal"),
        ),
        sa.CheckConstraint(
            "share > 0 AND share <= 1", name=op.f("ck_possible_sire_share_is_a_probability")
        ),
        sa.CheckConstraint(
            "sire_id <> animal_id", name=op.f("ck_possible_sire_nobody_is_its_own_sire")
        ),
        sa.ForeignKeyConstraint(
            ["animal_id"], ["animal.id"], name=op.f("fk_possible_sire_animal_id")
        ),
        sa.ForeignKeyConstraint(
            ["litter_id"], ["litter.id"], name=op.f("fk_possible_sire_litter_id")
        ),
        sa.ForeignKeyConstraint(["sire_id"], ["animal.id"], name=op.f("fk_possible_sire_sire_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_possible_sire")),
        sqlite_strict=True,
    )
    op.create_index(op.f("ix_possible_sire_sire_id"), "possible_sire", ["sire_id"], unique=False)
    op.create_index(
        "ux_possible_sire_of_animal", "possible_sire", ["animal_id", "sire_id"], unique=True
    )
    op.create_index(
        "ux_possible_sire_of_litter", "possible_sire", ["litter_id", "sire_id"], unique=True
    )

    op.create_index("ux_animal_tag", "animal", [sa.text("lower(tag)")], unique=True)
    dialect = op.get_bind().dialect.name
    if dialect == "postgresql":
        op.create_foreign_key(
            "fk_animal_litter_id",
            "animal",
            "litter",
            ["litter_id"],
            ["id"],
            initially="DEFERRED",
            deferrable=True,
        )
    for rule in RULES[dialect]:
        op.execute(rule)
