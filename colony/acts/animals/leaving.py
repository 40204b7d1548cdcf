"""What ends when an animal does: its place, its holds and its pairings."""

from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.records import Animal, Hold, Pairing, Placement


def leave_everything(session: Session, animal: Animal, on: date) -> None:
    """End what is open: its last day in the tank is the day of its end."""
    after = on + timedelta(days=1)
    for placement in session.exec(
        select(Placement).where(Placement.animal_id == animal.id, col(Placement.left_on).is_(None))
    ):
        placement.left_on = max(after, placement.entered_on + timedelta(days=1))
        session.add(placement)
    for hold in session.exec(
        select(Hold).where(Hold.animal_id == animal.id, col(Hold.ended).is_(None))
    ):
        hold.ended = max(on, hold.started)
        session.add(hold)
    for pairing in session.exec(
        select(Pairing).where(Pairing.dam_id == animal.id, col(Pairing.ended).is_(None))
    ):
        pairing.ended = max(on, pairing.started)
        session.add(pairing)
    session.flush()
