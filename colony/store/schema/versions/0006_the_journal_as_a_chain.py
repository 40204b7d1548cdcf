"""The identity of a book, and a journal whose acts are numbered, chained and found by what they touch.

Revision ID: 0006
"""

import datetime as dt
import hashlib
import json
import uuid
from collections.abc import Iterable, Iterator
from typing import Any

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"

_COLUMNS = ("id", "at", "who", "act", "summary", "changes", "act_id", "db_user", "previous")
_AT_ONCE = 500


def upgrade() -> None:
    """Give the book an identity, each act an id and the digest of the act before it."""
    connection = op.get_bind()
    _journal(connection)
    _places()
    _identity(connection)


def _journal(connection: sa.Connection) -> None:
    """SQLite has the table made anew; on PostgreSQL its columns are filled in place."""
    if connection.dialect.name == "postgresql":
        for column in (
            sa.Column("act_id", sa.String(), nullable=True),
            sa.Column("db_user", sa.String(), nullable=True),
            sa.Column("previous", sa.String(), nullable=True),
        ):
            op.add_column("journal", column)
        op.execute("ALTER TABLE journal DISABLE TRIGGER journal_is_append_only")
        update = sa.text("UPDATE journal SET act_id = :act_id, previous = :previous WHERE id = :id")
        for page in _in_pages(_chained(_entries(connection, "journal"))):
            connection.execute(update, page)
        op.execute("ALTER TABLE journal ENABLE TRIGGER journal_is_append_only")
        for name in ("act_id", "previous"):
            op.alter_column("journal", name, nullable=False)
        op.create_unique_constraint(op.f("uq_journal_act_id"), "journal", ["act_id"])
        return
    for moment in ("UPDATE", "DELETE"):
        op.execute(f"DROP TRIGGER journal_is_append_only_{moment}")
    op.execute("ALTER TABLE journal RENAME TO journal_before")
    op.create_table(
        "journal",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("who", sa.String(), nullable=False),
        sa.Column("act", sa.String(), nullable=False),
        sa.Column("summary", sa.String(), nullable=False),
        sa.Column("changes", sa.String(), nullable=False),
        sa.Column("act_id", sa.String(), nullable=False),
        sa.Column("db_user", sa.String(), nullable=True),
        sa.Column("previous", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_journal")),
        sa.UniqueConstraint("act_id", name=op.f("uq_journal_act_id")),
        sqlite_strict=True,
    )
    names = ", ".join(_COLUMNS)
    values = ", ".join(f":{name}" for name in _COLUMNS)
    insert = sa.text(f"INSERT INTO journal ({names}) VALUES ({values})")  # noqa: S608 - our own names
    for page in _in_pages(_chained(_entries(connection, "journal_before"))):
        connection.execute(insert, page)
    op.drop_table("journal_before")
    refuse = "BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END"
    for moment in ("UPDATE", "DELETE"):
        op.execute(
            f"CREATE TRIGGER journal_is_append_only_{moment} BEFORE {moment} ON journal {refuse}"
        )
    # REPLACE takes the row that is there away without a DELETE that a trigger would see.
    same = "SELECT 1 FROM journal WHERE id = NEW.id OR act_id = NEW.act_id"
    op.execute(
        "CREATE TRIGGER journal_is_append_only_REPLACE BEFORE INSERT ON journal "
        f"WHEN EXISTS ({same}) {refuse}"
    )


def _entries(connection: sa.Connection, table: str) -> Iterator[dict[str, Any]]:
    last = 0
    query = sa.text(
        f"SELECT id, at, who, act, summary, changes FROM {table} "  # noqa: S608 - our own names
        "WHERE id > :last ORDER BY id LIMIT :most"
    )
    while page := connection.execute(query, {"last": last, "most": _AT_ONCE}).mappings().all():
        yield from (dict(row) for row in page)
        last = page[-1]["id"]


def _chained(entries: Iterable[dict[str, Any]]) -> Iterator[dict[str, Any]]:
    previous = ""
    for entry in entries:
        row = {**entry, "act_id": f"act-{entry['id']}", "db_user": None, "previous": previous}
        previous = _digest(row)
        yield row


def _digest(row: dict[str, Any]) -> str:
    told = json.dumps([row[name] for name in _COLUMNS], ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(told.encode("utf-8", "surrogatepass")).hexdigest()


def _in_pages(rows: Iterable[dict[str, Any]]) -> Iterator[list[dict[str, Any]]]:
    page: list[dict[str, Any]] = []
    for row in rows:
        page.append(row)
        if len(page) == _AT_ONCE:
            yield page
            page = []
    if page:
        yield page


def _places() -> None:
    op.create_table(
        "journal_place",
        sa.Column("entry_id", sa.Integer(), nullable=False),
        sa.Column("place", sa.String(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(
            ["entry_id"], ["journal.id"], name=op.f("fk_journal_place_entry_id")
        ),
        sa.PrimaryKeyConstraint("entry_id", "place", "key", name=op.f("pk_journal_place")),
        sqlite_strict=True,
    )
    op.create_index(
        "ix_journal_place_place_key", "journal_place", ["place", "key", "entry_id"], unique=False
    )


def _identity(connection: sa.Connection) -> None:
    op.create_table(
        "book",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("begun", sa.String(), nullable=False),
        sa.Column("head", sa.String(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_book")),
        sqlite_strict=True,
    )
    newest = (
        connection.execute(sa.text("SELECT * FROM journal ORDER BY id DESC LIMIT 1"))
        .mappings()
        .first()
    )
    first = connection.scalar(sa.text("SELECT at FROM journal ORDER BY id LIMIT 1"))
    connection.execute(
        sa.text("INSERT INTO book (id, begun, head) VALUES (:id, :begun, :head)"),
        {
            "id": uuid.uuid4().hex,
            "begun": first or dt.datetime.now(dt.UTC).isoformat(timespec="seconds"),
            "head": "" if newest is None else _digest(dict(newest)),
        },
    )
