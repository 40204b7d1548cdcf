"""Write down animals: a new one, a corrected fact, an end."""

from datetime import date

from sqlmodel import Session, select

from colony.acts.animals.days import refuse_before_life, refuse_future
from colony.acts.animals.guards import Decision, guard, target_of
from colony.acts.animals.leaving import give_back, leave_everything, refuse_later_events
from colony.acts.animals.parents import set_parents
from colony.acts.litters.sires import settle_sire
from colony.acts.orders.reserving import keep_by_name
from colony.acts.pups.measure import measure
from colony.acts.tanks.isolation import reason_to_leave
from colony.acts.tanks.placing import find_usable_tank, place
from colony.notation.fields.facts import AnimalFacts
from colony.notation.shares import UNKNOWN_SIRE
from colony.planning.guards.judge import Proposal
from colony.planning.guards.table import BRING, GIVE, SELL
from colony.records import Animal, Litter
from colony.records.rules import broken
from colony.refusals.animals import (
    AlreadyEnded,
    LastSeenUnclear,
    NotEnded,
    NothingToChange,
    ReservedTag,
    TagTaken,
    TransponderTaken,
)
from colony.refusals.litters import LitterKnows
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal, find_species, seek_animal
from colony.store.readers.pedigree import refuse_impossible_pedigree
from colony.store.readers.tanks.house import read_tanks


def add_animal(
    session: Session,
    *,
    tag: str,
    facts: AnimalFacts,
    tank: str | None = None,
    width_mm: int | None = None,
    anyway: bool = False,
    why: str | None = None,
    today: date,
) -> Animal:
    """Write down an animal that was not born in a litter of this book.

    Raises
    ------
    StandsAgainst, AnywayNeedsWhy
        It came from outside not long ago, and would go into shared water.
    TagTaken, TransponderTaken, NoSuchSpecies, NoSuchTag, NoSuchTank, NotYet
    WrongSexForParent, ParentNotOlder
        A parent cannot be one.
    """
    animal = Animal(tag=tag)
    _set_facts(session, animal, AnimalFacts(**{**facts, "tag": tag}), today)
    if tank:
        into = read_tanks(session)[find_usable_tank(session, tank).id or 0]
        proposal = Proposal(BRING, today, target_of(into))
        guard(session, proposal, [animal], Decision(anyway=anyway, why=why))
        place(session, animal, tank, on=facts.get("arrived") or today, today=today)
    if width_mm is not None:
        measure(session, tag=tag, width_mm=width_mm, on=today, anyway=anyway, today=today)
    tell(session, f"{tag} was added")
    return animal


def edit_animal(session: Session, *, tag: str, facts: AnimalFacts, today: date) -> Animal:
    """Correct facts of an animal; everything that is computed from them follows.

    A sire given for a pup of a litter is a test result and settles that pup.

    Raises
    ------
    NoSuchTag, NothingToChange, and what `add_animal` refuses
    """
    animal = find_animal(session, tag)
    if not facts:
        raise NothingToChange(animal.tag)
    _set_facts(session, animal, facts, today)
    corrected = ", ".join(field.words_for_it for field in facts.FIELDS if field.name in facts)
    tell(session, f"{animal.tag} was corrected: {corrected}")
    return animal


_GUARDED_ENDS = {"sold": SELL, "gone": GIVE}
"""The ends that the breeder decides on, as the guards know them; death asks nobody."""


def end_animal(
    session: Session,
    *,
    tag: str,
    how: str,
    on: date,
    why: str | None = None,
    last_seen: date | None = None,
    anyway: bool = False,
    today: date,
) -> Animal:
    """Write down that an animal died, was sold or is gone; it leaves its tank and pairings.

    One that died unseen was `last_seen` alive on a day before it was found: it died between.

    Raises
    ------
    NoSuchTag, AlreadyEnded, NotYet, EndsBeforeItBegan, EndsBeforeLater
    StandsAgainst, AnywayNeedsWhy
        It is held, reserved, isolated, kept back or near term, and that is not overruled.
    LeavesIsolationEarly
        It leaves alive while it is isolated, and no reason is given.
    LastSeenUnclear
        It did not die, or was last seen alive after it was found dead.
    """
    animal = find_animal(session, tag)
    if animal.status != "present":
        raise AlreadyEnded(animal.tag, animal.status, animal.ended_on)
    refuse_future(f"The end of {animal.tag}", on, today)
    refuse_before_life(animal, last_seen or on)
    refuse_later_events(session, animal, last_seen or on)
    if wrong := broken(Animal, status=how, ended_on=on, last_seen=last_seen):
        raise LastSeenUnclear(animal.tag, wrong)
    if (act := _GUARDED_ENDS.get(how)) is not None:
        guard(session, Proposal(act, on, whom=why), [animal], Decision(anyway=anyway, why=why))
    if how != "died":
        why = reason_to_leave(session, [animal.tag], to=None, why=why, today=today)
    animal.last_seen = last_seen
    write_end(session, animal, how=how, on=on, why=why)
    return animal


def write_end(session: Session, animal: Animal, *, how: str, on: date, why: str | None) -> None:
    """Write an end that was judged: it leaves its tank, its pairings and what it is kept for."""
    animal.status, animal.ended_on, animal.ended_why = how, on, why or animal.ended_why
    session.add(animal)
    leave_everything(session, animal, on)
    tell(session, f"{animal.tag} {how} {end_in_words(animal)}")


def end_in_words(animal: Animal) -> str:
    """When an animal ended: ``on 2026-03-02``, ``between 2026-02-27 and 2026-03-02``."""
    if animal.last_seen is None or animal.last_seen == animal.ended_on:
        return f"on {animal.ended_on}"
    return f"between {animal.last_seen} and {animal.ended_on}"


def bring_back(session: Session, *, tag: str) -> Animal:
    """Take back an end that was written by mistake; it is in the tank again that it was in.

    Its pairings and holds have to be begun anew: the day that they ended may be their own.

    Raises
    ------
    NoSuchTag, NotEnded
    """
    animal = find_animal(session, tag)
    if animal.status == "present":
        raise NotEnded(animal.tag)
    ended_on = animal.ended_on
    animal.status, animal.ended_on, animal.ended_why = "present", None, None
    animal.last_seen = None
    session.add(animal)
    tank = give_back(session, animal, ended_on) if ended_on else None
    tell(session, f"{animal.tag} is here after all{f', in {tank}' if tank else ''}")
    return animal


def _set_facts(session: Session, animal: Animal, facts: AnimalFacts, today: date) -> None:
    litter = session.get(Litter, animal.litter_id) if animal.litter_id else None
    if litter is not None and ("born" in facts or "dam" in facts):
        raise LitterKnows(animal.tag, litter.code)
    tag, transponder, born = facts.get("tag"), facts.get("transponder"), facts.get("born")
    if tag and tag != (animal.tag if animal.id else None):
        _refuse_taken_tag(session, animal, tag)
    if born:
        refuse_future(f"The birth of {animal.tag}", born.first, today)
    if transponder:
        carrier = session.exec(select(Animal).where(Animal.transponder == transponder)).first()
        if carrier is not None and carrier.id != animal.id:
            raise TransponderTaken(transponder, carrier.tag)
    species = facts.get("species")
    ids = {"species": find_species(session, species).id} if species else {}
    columns = facts.columns(**ids)
    columns.pop("reserved_for", None)  # the name is a buyer's: it is kept outside the journal
    for column, value in columns.items():
        setattr(animal, column, value)
    _refuse_days(animal, today)
    session.add(animal)
    session.flush()
    _set_kin(session, animal, facts)
    if "reserved_for" in facts:
        keep_by_name(session, animal, facts["reserved_for"], today)


def _set_kin(session: Session, animal: Animal, facts: AnimalFacts) -> None:
    dam, sires = facts.get("dam"), facts.get("sires", ())
    if animal.litter_id is not None and sires:
        settle_sire(session, animal, sires)
    elif dam or sires:
        set_parents(session, animal, dam=dam, sires=sires)
    if facts.keys() & {"dam", "sires", "sex", "born"}:
        refuse_impossible_pedigree(session)


def _refuse_days(animal: Animal, today: date) -> None:
    """Hold the days of a life to their order, before the database does it in its own words."""
    if animal.arrived is not None:
        refuse_future(f"The arrival of {animal.tag}", animal.arrived, today)
    if animal.mature_since is not None:
        refuse_future(f"The maturity of {animal.tag}", animal.mature_since, today)
    for day in (animal.arrived, animal.mature_since, animal.ended_on):
        if day is not None:
            refuse_before_life(animal, day)


def _refuse_taken_tag(session: Session, animal: Animal, tag: str) -> None:
    if tag.casefold() == UNKNOWN_SIRE:
        raise ReservedTag(tag)
    holder = seek_animal(session, tag)
    if holder is not None and holder.id != animal.id:
        raise TagTaken(holder.tag)
