"""Health holds: keep an animal out of breeding and sale for a time."""

from datetime import date

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_ended, refuse_future
from colony.records import Hold
from colony.refusals.health import HeldAlready, NotHeld
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal


def hold(session: Session, *, tag: str, why: str, on: date, today: date) -> Hold:
    """Hold an animal from a day on, for a reason.

    Raises
    ------
    NoSuchTag, NotHere, NotYet, EndsBeforeItBegan, HeldAlready
    """
    animal = find_animal(session, tag)
    refuse_ended(animal, "be held")
    refuse_future(f"The hold of {animal.tag}", on, today)
    refuse_before_life(animal, on)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    running = _running(session, animal.id)
    if running is not None:
        raise HeldAlready(animal.tag, running.started, running.why)
    row = Hold(animal_id=animal.id, started=on, why=why)
    session.add(row)
    session.flush()
    tell(session, f"{animal.tag} is held: {why}")
    return row


def release(session: Session, *, tag: str, on: date, today: date) -> Hold:
    """End the hold of an animal.

    Raises
    ------
    NoSuchTag, NotHeld, NotYet
    """
    animal = find_animal(session, tag)
    refuse_future(f"The release of {animal.tag}", on, today)
    assert animal.id is not None  # noqa: S101 - it was found in the book
    running = _running(session, animal.id)
    if running is None or on < running.started:
        raise NotHeld(animal.tag, on)
    running.ended = on
    session.add(running)
    session.flush()
    tell(session, f"{animal.tag} is released")
    return running


def _running(session: Session, animal_id: int) -> Hold | None:
    return session.exec(
        select(Hold).where(Hold.animal_id == animal_id, col(Hold.ended).is_(None))
    ).first()
