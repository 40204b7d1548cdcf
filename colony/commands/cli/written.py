"""What this process has written: said where it is stopped, or can no longer answer."""

import os
from pathlib import Path

ACT_ID_VARIABLE = "COLONY_ACT_ID"
"""An id that a script gives its act: sent again with the same one, it is not written twice."""

_acts: list[int] = []
_to_try: list[Path] = []
_ids: list[str] = []


def begin() -> None:
    """A command begins: nothing is written yet."""
    _acts.clear()
    _to_try.clear()
    _ids.clear()


def note(number: int) -> None:
    """An act is written, by this number of the journal."""
    _acts.append(number)


def next_id() -> str | None:
    """The id that the caller gave; a second act of one command has it with a number."""
    given = os.environ.get(ACT_ID_VARIABLE)
    if not given:
        return None
    _ids.append(given if not _ids else f"{given}-{len(_ids) + 1}")
    return _ids[-1]


def in_words() -> str:
    """What was written, for somebody who cannot know: ``act 12 is written``."""
    if not _acts:
        return "nothing was written"
    numbers = ", ".join(map(str, _acts))
    return f"act {numbers} is written" if len(_acts) == 1 else f"acts {numbers} are written"


def is_any() -> bool:
    """Whether anything was written."""
    return bool(_acts)


def try_later(backup: Path | None) -> None:
    """A backup is to be restored as a test when all is answered."""
    if backup is not None:
        _to_try.append(backup)


def try_backups() -> list[str]:
    """Restore as a test what is to be; what was wrong, in sentences."""
    if not _to_try:
        return []
    from colony.store.backups.daily import try_backup

    return [wrong for backup in _to_try if (wrong := try_backup(backup))]
