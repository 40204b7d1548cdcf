"""The settings of the book: look at them, and set one."""

from dataclasses import asdict
from typing import Any

from sqlmodel import Session

from colony.store.journal import tell
from colony.store.settings import read_settings, write_setting


def show_settings(session: Session) -> dict[str, Any]:
    """Every setting by name."""
    return asdict(read_settings(session))


def set_setting(session: Session, *, key: str, value: str) -> None:
    """Set one choice of the book; `UnknownSetting` and `BadSetting` name what is right."""
    write_setting(session, key, value)
    tell(session, f"{key} is {value}")
