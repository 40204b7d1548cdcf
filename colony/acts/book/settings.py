"""The settings of the book: look at them, and set one."""

from dataclasses import asdict
from typing import Any

from sqlmodel import Session

from colony.refusals.books import UnknownSetting
from colony.store.journal.journal import tell
from colony.store.settings import read_settings, write_setting


def show_settings(session: Session, *, key: str | None = None) -> dict[str, Any]:
    """Every setting by name, or the one of that name; `UnknownSetting` where there is none."""
    known = asdict(read_settings(session))
    if key is None:
        return known
    if key not in known:
        raise UnknownSetting(key, sorted(known))
    return {key: known[key]}


def set_setting(session: Session, *, key: str, value: str) -> None:
    """Set one choice of the book; `UnknownSetting` and `BadSetting` name what is right."""
    write_setting(session, key, value)
    tell(session, f"{key} is {value}")
