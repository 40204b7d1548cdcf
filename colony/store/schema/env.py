"""What alembic runs: the scripts, on the connection that `upgrade` opened."""

from alembic import context

from colony.records import every_table

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=every_table(),
    transactional_ddl=True,
)
context.run_migrations()
