"""What one room knows binds the others: guards, births, ends, care, water and alarms.

Revision ID: 0003
"""

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables and columns of each subject."""
    _guards()
    _births()
    _ends()
    _care()
    _water()
    _alarms()


def _guards() -> None:
    """Keep why a guard was overridden."""


def _births() -> None:
    """Take signs of females in no pairing."""


def _ends() -> None:
    """Know an end only between two days."""


def _care() -> None:
    """Let the tasks and foods be the breeder's own."""


def _water() -> None:
    """Take what is in the source water, and ammonia as it was measured."""


def _alarms() -> None:
    """Keep how an alarm was answered."""
