"""Correct a litter: a wrong sire, date or count; everything computed from it follows."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, func, select

from colony.acts.animals.days import refuse_future
from colony.acts.animals.parents import find_parent, find_sires
from colony.acts.litters.possible_sires import SireFinder
from colony.acts.litters.sires import refuse_against_tests, write_sires
from colony.notation.days import Day
from colony.notation.fields.facts import LitterFacts
from colony.records import Animal, Feeding, Litter, Measurement, Placement
from colony.refusals.animals import EndsBeforeItBegan
from colony.refusals.base import Advice
from colony.refusals.litters import DeadDam, LitterTwice
from colony.store.journal.journal import tell
from colony.store.lookup import find_litter
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.dams import read_dams
from colony.store.readers.litters.parents import read_parents
from colony.store.readers.pedigree import refuse_impossible_pedigree


@dataclass(frozen=True)
class LitterMended:
    """The litter that was corrected, and what looks odd."""

    litter: str
    warnings: tuple[Advice, ...]


def edit_litter(
    session: Session, *, code: str, corrections: LitterFacts, today: date
) -> LitterMended:
    """Correct a litter: a wrong sire, date or count of dead; all that is computed follows.

    Males who were with the dam when she may have conceived, and are not among its sires, are
    warned of.

    Raises
    ------
    NoSuchLitter, NotYet, NoSuchTag, WrongSexForParent, ParentNotOlder, DeadDam, LitterTwice
    EndsBeforeItBegan
        A pup was moved, measured or fed, or left, before the new day of birth.
    SireFoundByTest, SettledOtherwise
        Tests of its pups found a sire that would no longer be possible.
    """
    litter = find_litter(session, code)
    day = corrections.get("born")
    if day is not None:
        refuse_future("The birth", day, today)
        _refuse_dam(session, litter, day)
        _move_birth(session, litter, day)
    if "sires" in corrections:
        born = Day(litter.born)
        found = find_sires(session, corrections["sires"], pup=f"litter {litter.code}", born=born)
        write_sires(session, litter, found)
    for column, value in corrections.columns().items():
        setattr(litter, column, value)
    session.add(litter)
    session.flush()
    refuse_against_tests(session, litter)
    refuse_impossible_pedigree(session)
    words = ", ".join(
        field.words_for_it for field in corrections.FIELDS if field.name in corrections
    )
    tell(session, f"litter {litter.code} was corrected: {words}")
    about_sires = "sires" in corrections or "born" in corrections
    return LitterMended(litter.code, tuple(_passed_over(session, litter)) if about_sires else ())


def _passed_over(session: Session, litter: Litter) -> list[Advice]:
    herd, lives = read_herd(session), read_lives(session)
    dams = read_dams(session, herd)
    sires = [sire for sire, _ in read_parents(session, herd).sires_of_litter(litter.id or 0)]
    finder = SireFinder(session, herd, lives, dams)
    possible = finder.of_litter(litter.dam_id, sires, litter.born)
    named = {herd.by_id(sire).tag for sire in sires if sire}
    return possible.warnings(herd.by_id(litter.dam_id).tag, litter.code, named)


def _refuse_dam(session: Session, litter: Litter, born: date) -> None:
    """Hold the dam to the new day: alive, old enough, and without another litter on it."""
    tag = session.exec(select(Animal.tag).where(Animal.id == litter.dam_id)).one()
    mother = find_parent(session, tag, "dam", pup=f"litter {litter.code}", born=Day(born))
    if mother.ended_on is not None and mother.ended_on < born:
        raise DeadDam(mother.tag, mother.status, mother.ended_on, born)
    twin = session.exec(
        select(Litter.code).where(
            Litter.dam_id == mother.id, Litter.born == born, Litter.id != litter.id
        )
    ).first()
    if twin is not None:
        raise LitterTwice(mother.tag, twin, born)


def _move_birth(session: Session, litter: Litter, born: date) -> None:
    for pup in session.exec(select(Animal).where(Animal.litter_id == litter.id)):
        for placement in session.exec(
            select(Placement).where(
                Placement.animal_id == pup.id, Placement.entered_on == litter.born
            )
        ):
            _refuse_event(pup, placement.left_on, born)
            placement.entered_on = born
            session.add(placement)
        measured = select(func.min(col(Measurement.measured_on)))
        fed = select(func.min(col(Feeding.fed_on)))
        for event in (
            session.exec(measured.where(Measurement.animal_id == pup.id)).one(),
            session.exec(fed.where(Feeding.animal_id == pup.id)).one(),
            pup.ended_on,
        ):
            _refuse_event(pup, event, born)
        pup.born = born
        session.add(pup)
    litter.born = born


def _refuse_event(pup: Animal, event: date | None, born: date) -> None:
    if event is not None and event < born:
        raise EndsBeforeItBegan(pup.tag, event, born)
