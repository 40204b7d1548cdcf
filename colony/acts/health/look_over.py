"""Look-overs: the signs that were seen at an animal or in a tank."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, func, select

from colony.acts.animals.days import refuse_before_life, refuse_future
from colony.acts.care.ticks import note_done
from colony.notation.care import WELL
from colony.notation.cautions import VET, ZOONOSIS
from colony.records import Animal, LookOver, Tank
from colony.records.rules import broken
from colony.refusals.health import LookOverOfWhom, WellAndSick
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal, find_tank


@dataclass(frozen=True)
class LookOverNoted:
    """What was seen, at whom or where."""

    of: str
    on: date
    signs: tuple[str, ...]
    cautions: tuple[str, ...]


@dataclass(frozen=True)
class SignLine:
    """One sign in the list; of an animal, or of a tank where it is not known whose it is."""

    on: date
    animal: str | None
    tank: str | None
    sign: str
    note: str | None


def look_over(
    session: Session,
    *,
    tag: str | None = None,
    tank: str | None = None,
    signs: Sequence[str] = (WELL,),
    note: str | None = None,
    on: date,
    today: date,
) -> LookOverNoted:
    """Write down what a look-over of an animal or of a tank found; a tank's is ticked off.

    Raises
    ------
    LookOverOfWhom, WellAndSick, NoSuchTag, NoSuchTank, NotYet, EndsBeforeItBegan
    """
    refuse_future("A look-over", on, today)
    if wrong := broken(LookOver, animal_id=tag, tank_id=tank):
        raise LookOverOfWhom(wrong)
    if WELL in signs and len(signs) > 1:
        raise WellAndSick
    animal = find_animal(session, tag) if tag else None
    home = find_tank(session, tank) if tank else None
    if animal is not None:
        refuse_before_life(animal, on)
    session.add_all(
        LookOver(
            seen_on=on,
            animal_id=animal.id if animal else None,
            tank_id=home.id if home else None,
            sign=sign,
            note=note,
        )
        for sign in dict.fromkeys(signs)
    )
    session.flush()
    if home is not None:
        note_done(session, task="look-over", place=home.code, on=on)
    name = animal.tag if animal else home.code if home else ""
    tell(session, f"{name} looked over: {', '.join(signs)}")
    cautions = (ZOONOSIS,) if WELL in signs else (VET, ZOONOSIS)
    return LookOverNoted(name, on, tuple(dict.fromkeys(signs)), cautions)


def list_signs(
    session: Session,
    *,
    tag: str | None = None,
    tank: str | None = None,
    since: date | None = None,
    well_too: bool = False,
) -> list[SignLine]:
    """The signs that were seen, the last first.

    Raises
    ------
    NoSuchTag, NoSuchTank
    """
    query = (
        select(LookOver, Animal.tag, Tank.code)
        .join(Animal, col(LookOver.animal_id) == col(Animal.id), isouter=True)
        .join(Tank, col(LookOver.tank_id) == col(Tank.id), isouter=True)
        .order_by(col(LookOver.seen_on).desc(), col(LookOver.id).desc())
    )
    if tag is not None:
        query = query.where(func.lower(Animal.tag) == find_animal(session, tag).tag.lower())
    if tank is not None:
        query = query.where(LookOver.tank_id == find_tank(session, tank).id)
    if since is not None:
        query = query.where(LookOver.seen_on >= since)
    if not well_too:
        query = query.where(LookOver.sign != WELL)
    return [
        SignLine(row.seen_on, animal, code, row.sign, row.note)
        for row, animal, code in session.exec(query)
    ]
