"""Single animals: transponders, ends, widths, and what is dated before or after their life."""

from collections.abc import Iterator
from datetime import date
from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from colony.acts.book.checks.finding import Finding
from colony.acts.pups.measure import WEEK_DAYS
from colony.notation.house import say_growth, say_length
from colony.notation.transponders import parse_transponder
from colony.planning.guards.plausible import odd_growth
from colony.records import Animal, Feeding, Hold, Measurement, Pairing, Placement
from colony.refusals.base import act
from colony.refusals.notation import BadTransponder
from colony.store.readers.rows import read_rows

_DATED: tuple[tuple[str, Any, Any, str], ...] = (
    ("measured", Measurement.animal_id, Measurement.measured_on, "pup measure"),
    ("fed", Feeding.animal_id, Feeding.fed_on, "pup feed"),
    ("held", Hold.animal_id, Hold.started, "animal hold"),
    ("put into a tank", Placement.animal_id, Placement.entered_on, "tank move"),
    ("paired", Pairing.dam_id, Pairing.started, "pairing start"),
)
"""What is done with an animal on a day, by which column it is told, and the act that writes it."""


def transponders(session: Session, _today: date) -> Iterator[Finding]:
    """Each transponder is a number that ISO 11784 allows, and is in one animal only."""
    query: Any = select(col(Animal.tag), col(Animal.transponder)).order_by(col(Animal.id))
    carriers: dict[str, str] = {}
    for tag, number in read_rows(session, query.where(col(Animal.transponder).is_not(None))):
        remedies = (act("animal edit", tag, transponder=""),)
        try:
            plain = parse_transponder(number)
        except BadTransponder as refusal:
            yield Finding("transponder", True, tag, refusal.sentence, remedies)
            continue
        if plain in carriers:
            problem = f"has the transponder {plain} of {carriers[plain]}"
            yield Finding("transponder", True, tag, problem, remedies)
        carriers[plain] = tag


def born_by_now(session: Session, today: date) -> Iterator[Finding]:
    """Nobody is born, and nothing done, after today."""
    late = select(col(Animal.tag), col(Animal.born)).where(col(Animal.born) > today)
    for tag, born in read_rows(session, late):
        problem = f"was born on {born}, after today: is the clock right?"
        yield Finding("clock", True, tag, problem, (act("animal edit", tag, born=""),))
    for what, owner, on, writing in _DATED:
        query = _of_animals(owner, Animal.tag, on)
        for tag, day in read_rows(session, query.where(col(on) > today)):
            problem = f"was {what} on {day}, after today: is the clock right?"
            yield Finding("clock", True, tag, problem, (act(writing, tag, on=""),))


def within_life(session: Session, _today: date) -> Iterator[Finding]:
    """Nothing is done with an animal before its birth or after its end."""
    for what, owner, on, writing in _DATED:
        query = _of_animals(owner, Animal.tag, on, Animal.born, Animal.ended_on, Animal.status)
        outside = (col(on) < col(Animal.born)) | (col(on) > col(Animal.ended_on))
        for tag, day, born, ended, status in read_rows(session, query.where(outside)):
            why = (
                f"before its birth on {born}" if born and day < born else f"but {status} on {ended}"
            )
            remedies = (act(writing, tag, on=""),)
            yield Finding("life", True, tag, f"was {what} on {day}, {why}", remedies)


def ends_are_complete(session: Session, _today: date) -> Iterator[Finding]:
    """Who is dead, sold or gone is in no tank, in no running pairing, and is not held."""
    for what, owner, left in (
        ("in a tank", Placement.animal_id, Placement.left_on),
        ("in a running pairing", Pairing.dam_id, Pairing.ended),
        ("held", Hold.animal_id, Hold.ended),
    ):
        query = _of_animals(owner, Animal.tag, Animal.status, Animal.ended_on).where(
            col(left).is_(None), col(Animal.status) != "present"
        )
        for tag, status, on in read_rows(session, query):
            problem = f"{status} on {on} and is still {what}"
            remedies = (
                act("animal edit", tag, back=True),
                act("animal end", tag, status, on=str(on)),
            )
            yield Finding("end", True, tag, problem, remedies, in_turn=True)


def widths(session: Session, _today: date) -> Iterator[Finding]:
    """No width shrinks by more than a tape errs, or grows faster than a ray can."""
    query = (
        _of_animals(
            Measurement.animal_id, Animal.tag, Measurement.measured_on, Measurement.width_mm
        )
        .where(col(Measurement.width_mm).is_not(None))
        .order_by(col(Measurement.animal_id), col(Measurement.measured_on))
    )
    last: dict[str, tuple[date, int]] = {}
    for tag, on, width_mm in read_rows(session, query):
        before_on, before_mm = last.get(tag, (on, width_mm))
        if problem := _doubt(width_mm - before_mm, (on - before_on).days):
            remedies = (act("pup measure", tag, on=str(on)),)
            yield Finding(
                "width", False, tag, f"{say_length(width_mm)} on {on} is {problem}", remedies
            )
        last[tag] = (on, max(before_mm, width_mm))


def _of_animals(owner: Any, *columns: Any) -> Any:  # noqa: ANN401 - columns of whatever type
    """Rows that belong to animals, beside the animal that each belongs to."""
    return (
        select(*map(col, columns))
        .select_from(Animal)
        .join(owner.class_, col(owner) == col(Animal.id))
    )


def _doubt(grown_mm: int, days: int) -> str | None:
    match odd_growth(grown_mm, grown_mm / days * WEEK_DAYS if days else 0.0):
        case "shrank":
            return f"{say_growth(-grown_mm)} less than before"
        case "leapt":
            return f"{say_growth(grown_mm)} more than {days} days before"
        case _:
            return None
