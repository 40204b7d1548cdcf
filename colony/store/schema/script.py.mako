"""${message}.

Revision ID: ${up_revision}
"""

import sqlalchemy as sa
import sqlmodel
from alembic import op

revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}


def upgrade() -> None:
    """Change the tables."""
    ${upgrades if upgrades else "pass"}
