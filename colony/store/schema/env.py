"""What alembic runs: the scripts, on the connection that `upgrade` opened."""

from alembic import context
from sqlmodel import SQLModel

from colony import records

assert records.__all__, "every table is known to the metadata"  # noqa: S101 - the import is for its effect

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=SQLModel.metadata,
    transactional_ddl=True,
)
context.run_migrations()
