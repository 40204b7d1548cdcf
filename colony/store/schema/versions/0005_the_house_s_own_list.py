"""Tasks of the house's own, and the day on which one that died unseen was last seen alive.

Revision ID: 0005
"""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Add the list of tasks, let the round hold any of them, and keep when an animal was seen."""
    _house_tasks()
    _round()
    _last_seen()


def _house_tasks() -> None:
    op.create_table(
        "house_task",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("per", sa.String(), nullable=False),
        sa.Column("caution", sa.String(), nullable=True),
        sa.CheckConstraint(
            "length(name) BETWEEN 1 AND 40", name=op.f("ck_house_task_name_has_a_length")
        ),
        sa.CheckConstraint(
            "per IN ('tank with animals', 'tank', 'system')",
            name=op.f("ck_house_task_per_is_known"),
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_house_task")),
        sqlite_strict=True,
    )
    op.create_index("ux_house_task_name", "house_task", [sa.text("lower(name)")], unique=True)


def _round() -> None:
    """A task of the round is any word: which ones there are is the house's own list."""
    tables = ("care_done", "care_rhythm")
    if op.get_bind().dialect.name == "postgresql":
        for table in tables:
            op.drop_constraint(op.f(f"ck_{table}_task_is_known"), table, type_="check")
            op.create_check_constraint(
                op.f(f"ck_{table}_task_has_a_length"), table, "length(task) BETWEEN 1 AND 40"
            )
        return
    # SQLite drops no check in place: the tables are made anew, and their rows are carried over.
    for table in tables:
        op.execute(f"ALTER TABLE {table} RENAME TO {table}_before")
    for column in ("done_on", "system_id", "tank_id"):
        op.drop_index(f"ix_care_done_{column}", "care_done_before")
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
            "length(task) BETWEEN 1 AND 40", name=op.f("ck_care_done_task_has_a_length")
        ),
        sa.CheckConstraint(
            "(tank_id IS NULL) <> (system_id IS NULL)",
            name=op.f("ck_care_done_at_a_tank_or_a_system"),
        ),
        sa.CheckConstraint(
            "done_on IS date(done_on, '+0 days')", name=op.f("ck_care_done_done_on_is_a_day")
        ),
        sa.CheckConstraint(
            "length(skipped_why) > 0", name=op.f("ck_care_done_a_skip_has_a_reason")
        ),
        sa.ForeignKeyConstraint(["system_id"], ["system.id"], name=op.f("fk_care_done_system_id")),
        sa.ForeignKeyConstraint(["tank_id"], ["tank.id"], name=op.f("fk_care_done_tank_id")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_care_done")),
        sqlite_strict=True,
    )
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
            "length(task) BETWEEN 1 AND 40", name=op.f("ck_care_rhythm_task_has_a_length")
        ),
        sa.CheckConstraint(
            "(tank_id IS NULL OR system_id IS NULL) AND (tank_id IS NULL OR role IS NULL) AND (system_id IS NULL OR role IS NULL)",
            name=op.f("ck_care_rhythm_holds_in_one_way"),
        ),
        sa.CheckConstraint("every_days > 0", name=op.f("ck_care_rhythm_every_days_is_positive")),
        sa.CheckConstraint(
            "started IS date(started, '+0 days')", name=op.f("ck_care_rhythm_started_is_a_day")
        ),
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
    op.execute(
        "INSERT INTO care_done (id, task, done_on, tank_id, system_id, skipped_why, note) "
        "SELECT id, task, done_on, tank_id, system_id, skipped_why, note FROM care_done_before"
    )
    op.execute(
        "INSERT INTO care_rhythm "
        "(id, task, started, times_a_day, every_days, tank_id, system_id, role) "
        "SELECT id, task, started, times_a_day, every_days, tank_id, system_id, role "
        "FROM care_rhythm_before"
    )
    for table in tables:
        op.drop_table(f"{table}_before")
    for column in ("done_on", "system_id", "tank_id"):
        op.create_index(op.f(f"ix_care_done_{column}"), "care_done", [column], unique=False)


def _last_seen() -> None:
    checks = {
        "ck_animal_last_seen_follows_born": "last_seen >= born",
        "ck_animal_ended_on_follows_last_seen": "ended_on >= last_seen",
        "ck_animal_only_who_died_was_last_seen": "last_seen IS NULL OR status = 'died'",
    }
    if op.get_bind().dialect.name == "postgresql":
        op.add_column("animal", sa.Column("last_seen", sa.Date(), nullable=True))
        for name, check in checks.items():
            op.create_check_constraint(op.f(name), "animal", check)
        return
    checks["ck_animal_last_seen_is_a_day"] = "last_seen IS date(last_seen, '+0 days')"
    held = " ".join(f"CONSTRAINT {name} CHECK ({check})" for name, check in checks.items())
    # A column's own checks may speak of other columns in SQLite, so no table is made anew.
    op.execute(f"ALTER TABLE animal ADD COLUMN last_seen TEXT {held}")
