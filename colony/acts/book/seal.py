"""Seal the journal, and hold it later against a seal that was given away."""

from sqlmodel import Session

from colony.store.journal.seal import Seal, SealAnswer, hold_against, parse_seal, seal_of


def seal_book(session: Session) -> Seal:
    """The seal of the newest act: to write down, to print, to give to somebody.

    Raises
    ------
    NothingToSeal
    """
    return seal_of(session.connection())


def check_seal(session: Session, *, seal: str) -> SealAnswer:
    """Whether nothing up to the sealed act was changed, taken out or put in since.

    Raises
    ------
    NoSuchSeal
    """
    return hold_against(session.connection(), parse_seal(seal))
