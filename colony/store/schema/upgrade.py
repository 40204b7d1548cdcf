"""Run the schema scripts on a book."""

from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection


def upgrade(connection: Connection, to: str = "head") -> None:
    """Bring the book behind a connection up to a version, in its transaction."""
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, to)


def known_versions() -> set[str]:
    """Every version that this program has a script for."""
    return {script.revision for script in ScriptDirectory.from_config(_config()).walk_revisions()}


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    return config
