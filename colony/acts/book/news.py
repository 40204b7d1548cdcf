"""Notice that somebody else wrote in the book."""

from dataclasses import dataclass

from sqlmodel import Session

from colony.store.journal.entries import Mark, changed_since, latest


@dataclass(frozen=True)
class News:
    """What was written since a mark: how many acts, and the newest of them."""

    mark: Mark
    acts: int
    who: str
    summary: str


def news_since(session: Session, mark: Mark) -> News | None:
    """What was written since a mark; None where nothing was. One cheap query, made for polling."""
    now = latest(session)
    if now == mark:
        return None
    entries = changed_since(session, mark)
    if not entries:
        return News(now, 0, "Somebody", "another book is in its place (a backup was restored)")
    return News(now, len(entries), entries[-1].who, entries[-1].summary)
