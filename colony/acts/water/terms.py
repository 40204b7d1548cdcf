"""In which terms the house writes its tests: the unit of a temperature, and ammonia as N or NH3."""

from sqlmodel import Session

from colony.acts.book.settings import set_setting
from colony.notation.readings import Terms
from colony.records import Setting
from colony.store.settings import read_settings

_AMMONIA = "ammonia_as"


def read_terms(session: Session) -> Terms:
    """The terms that the settings say."""
    settings = read_settings(session)
    return Terms(settings.temperature_unit, settings.ammonia_as)


def ammonia_was_said(session: Session) -> bool:
    """Whether the breeder ever said how the house's test speaks of ammonia."""
    return session.get(Setting, _AMMONIA) is not None


def say_ammonia(session: Session, ammonia_as: str) -> None:
    """Keep how the house's test speaks of ammonia."""
    set_setting(session, key=_AMMONIA, value=ammonia_as)
