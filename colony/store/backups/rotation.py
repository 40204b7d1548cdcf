"""Which daily backups are kept: the last days, then one a week, then one a month."""

import datetime as dt
from collections.abc import Callable, Sequence
from contextlib import suppress

from colony.store.backups.backups import DAILY, Copy, list_copies
from colony.store.backups.manifest import manifest_path
from colony.store.settings import BookSettings


def throw_away(location: str, settings: BookSettings, book: str) -> None:
    """Delete daily backups that the rotation does not keep. All others are the user's to delete."""
    daily = [copy for copy in list_copies(location, book) if copy.reason == DAILY]
    kept = kept_copies(daily, settings)
    for copy in daily:
        if copy not in kept:
            with suppress(OSError):  # it is tried again tomorrow
                copy.path.unlink()
                manifest_path(copy.path).unlink(missing_ok=True)


def kept_copies(daily: Sequence[Copy], settings: BookSettings) -> list[Copy]:
    """The newest copy of each of the last days, weeks (ISO 8601) and months that have one.

    Days without a copy do not count, so neither a holiday nor a wrong clock empties the folder.
    """
    spans: tuple[tuple[int, Callable[[dt.datetime], object]], ...] = (
        (settings.backup_days, lambda made: made.date()),
        (settings.backup_weeks, lambda made: made.isocalendar()[:2]),
        (settings.backup_months, lambda made: (made.year, made.month)),
    )
    newest_first = sorted(daily, key=lambda copy: copy.made, reverse=True)
    kept: dict[Copy, None] = {}
    for most, span_of in spans:
        spans_seen: dict[object, Copy] = {}
        for copy in newest_first:
            spans_seen.setdefault(span_of(copy.made), copy)
        kept |= dict.fromkeys(list(spans_seen.values())[:most])
    return list(kept)
