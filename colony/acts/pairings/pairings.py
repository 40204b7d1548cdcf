"""Pairings: put a dam with her sires, end it, note mating signs and what was found of her."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_before_life, refuse_ended, refuse_future
from colony.acts.animals.guards import Decision, against_pairing, overrule
from colony.acts.animals.parents import find_parent
from colony.acts.tanks.placing import find_usable_tank
from colony.notation.days import Day
from colony.notation.fields.facts import PairingFacts
from colony.planning.guards.judge import Proposal
from colony.planning.guards.table import PAIR
from colony.records import Animal, MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.records.rules import broken
from colony.refusals.base import Advice, AnotherAct, act
from colony.refusals.pairings import EndsBeforeStart, NoPairing, PairedAlready
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal
from colony.store.readers.animals.herd import read_places


@dataclass(frozen=True)
class Paired:
    """A pairing as it was written down, with the mean F of the pups to come.

    It is `planned` until one of the sires is in her tank.
    """

    dam: str
    sires: tuple[str, ...]
    started: date
    tank: str | None
    inbreeding: float
    warnings: tuple[str | Advice, ...] = ()
    planned: bool = False


def start_pairing(
    session: Session,
    /,
    *,
    dam: str,
    sires: Sequence[str],
    on: date,
    anyway: bool = False,
    why: str | None = None,
    today: date,
    **facts: Any,  # noqa: ANN401 - the facts of a pairing
) -> Paired:
    """Write down that a dam is kept with one or several sires from a day on.

    `facts` are those of `PAIRING_FACTS`. What the table of guards says against it is refused
    or warned of; `anyway` overrules it for the reason `why`, which is kept.

    Raises
    ------
    NoSuchTag, WrongSexForParent, NotHere, NotYet, PairedAlready, NoSuchTank, TankRetired,
    StandsAgainst, AnywayNeedsWhy
    """
    begun = begin_pairing(session, dam=dam, sires=sires, on=on, today=today, **facts)
    ids = {animal.tag: _id(animal) for animal in (begun.dam, *begun.sires)}
    objections, lineage = against_pairing(session, begun.dam, begun.sires, on=on)
    decision = Decision(anyway=anyway, why=why)
    warnings = overrule(session, objections, Proposal(PAIR, on), decision, ids)
    males = [_id(male) for male in begun.sires]
    related = lineage.kinship([_id(begun.dam)], males)
    tags = tuple(male.tag for male in begun.sires)
    apart = apart_today(session, begun.dam, begun.sires, today)
    told = [told_apart(apart, begun.tank)] if apart else []
    return Paired(
        begun.dam.tag,
        tags,
        on,
        begun.tank,
        float(related.mean()),
        (*warnings, *told),
        planned=len(apart) == len(tags),
    )


@dataclass(frozen=True)
class Apart:
    """A male who is in another tank than the dam that he is paired with."""

    dam: str
    her_tank: str
    sire: str
    his_tank: str

    @property
    def sentence(self) -> str:
        """Who swims where."""
        return f"{self.dam} is in {self.her_tank} and {self.sire} in {self.his_tank}"


def apart_today(session: Session, dam: Animal, sires: Sequence[Animal], today: date) -> list[Apart]:
    """The males of a pairing that are in another tank than the dam, as far as is known."""
    places = read_places(session, today, [_id(each) for each in (dam, *sires)])
    hers = places.get(_id(dam))
    return [
        Apart(dam.tag, hers, male.tag, his)
        for male in sires
        if hers and (his := places.get(_id(male))) and his != hers
    ]


def bring_together(apart: Sequence[Apart], tank: str | None) -> AnotherAct:
    """The move that begins a planned pairing."""
    goes = tank or apart[0].her_tank
    moved = [each.sire for each in apart if each.his_tank != goes]
    if apart[0].her_tank != goes:
        moved.append(apart[0].dam)
    return act("tank move", *moved, goes)


def told_apart(apart: Sequence[Apart], tank: str | None) -> Advice:
    """Say that a pairing is planned, and which move begins it."""
    where = "; ".join(each.sentence for each in apart)
    return Advice(
        f"{where}: planned, and begun when they are together.", (bring_together(apart, tank),)
    )


@dataclass(frozen=True)
class Begun:
    """A pairing that was just written down."""

    dam: Animal
    sires: tuple[Animal, ...]
    tank: str | None


def begin_pairing(
    session: Session,
    /,
    *,
    dam: str,
    sires: Sequence[str],
    on: date,
    today: date,
    **facts: Any,  # noqa: ANN401 - the same
) -> Begun:
    """Write a pairing down and ask no pedigree about it, as many at once need.

    Raises
    ------
    What `start_pairing` refuses
    """
    refuse_future("The pairing", on, today)
    mother = find_parent(session, dam, "dam", pup="her pups", born=Day(on))
    found = (find_parent(session, tag, "sire", pup="his pups", born=Day(on)) for tag in sires)
    males = list({male.id: male for male in found}.values())
    for animal in (mother, *males):
        refuse_ended(animal, "be paired")
    running = _running(session, mother)
    if running is not None:
        raise PairedAlready(mother.tag, running.started)
    own = PairingFacts(**facts)
    where = find_usable_tank(session, own["tank"]) if own.get("tank") else None
    columns = own.columns(tank=where.id if where else None)
    pairing = Pairing(dam_id=_id(mother), started=on, **columns)
    session.add(pairing)
    session.flush()
    assert pairing.id is not None  # noqa: S101 - the flush gave it one
    for male in males:
        session.add(PairingSire(pairing_id=pairing.id, sire_id=_id(male)))
    session.flush()
    tell(session, f"{mother.tag} is with {', '.join(male.tag for male in males)}")
    return Begun(mother, tuple(males), where.code if where else None)


def end_pairing(session: Session, *, dam: str, on: date, today: date) -> Pairing:
    """Write down that a dam was separated from her sires.

    Raises
    ------
    NoSuchTag, NoPairing, NotYet, EndsBeforeStart
    """
    mother = find_animal(session, dam)
    refuse_future("The separation", on, today)
    pairing = _running(session, mother)
    if pairing is None:
        raise NoPairing(mother.tag)
    if broken(Pairing, started=pairing.started, ended=on):
        raise EndsBeforeStart(mother.tag, on, pairing.started)
    pairing.ended = on
    session.add(pairing)
    session.flush()
    tell(session, f"{mother.tag} was separated")
    return pairing


def note_sign(
    session: Session,
    *,
    dam: str,
    kind: str,
    on: date,
    sire: str | None = None,
    note: str | None = None,
    today: date,
) -> MatingSign:
    """Write down a mating sign of a dam, in the pairing that she was in that day if in one.

    Raises
    ------
    NoSuchTag, WrongSexForParent, NotYet, EndsBeforeItBegan
    """
    mother = find_parent(session, dam, "dam", pup="her pups", born=None)
    refuse_future("A mating sign", on, today)
    refuse_before_life(mother, on)
    pairing = _pairing_on(session, mother, on)
    male = find_parent(session, sire, "sire", pup="his pups", born=None) if sire else None
    if male and pairing:
        of_pairing = session.exec(
            select(PairingSire.sire_id).where(PairingSire.pairing_id == pairing.id)
        ).all()
        if male.id not in of_pairing:
            # Seen with another male than hers: the sign is of the dam alone.
            pairing = None
    sign = MatingSign(
        pairing_id=pairing.id if pairing else None,
        dam_id=None if pairing else mother.id,
        seen_on=on,
        kind=kind,
        sire_id=male.id if male else None,
        note=note,
    )
    session.add(sign)
    session.flush()
    tell(session, f"{mother.tag}: {kind} seen")
    return sign


def note_finding(
    session: Session,
    *,
    dam: str,
    finding: str,
    method: str,
    on: date,
    note: str | None = None,
    today: date,
) -> PregnancyFinding:
    """Write down what was found of a female. "Nothing seen" never means "not pregnant".

    Raises
    ------
    NoSuchTag, WrongSexForParent, NotYet, EndsBeforeItBegan
    """
    mother = find_parent(session, dam, "dam", pup="her pups", born=None)
    refuse_future("A finding", on, today)
    refuse_before_life(mother, on)
    found = PregnancyFinding(
        dam_id=_id(mother), found_on=on, finding=finding, method=method, note=note
    )
    session.add(found)
    session.flush()
    tell(session, f"{mother.tag}: {finding}")
    return found


def _running(session: Session, mother: Animal) -> Pairing | None:
    return session.exec(
        select(Pairing).where(Pairing.dam_id == mother.id, col(Pairing.ended).is_(None))
    ).first()


def _pairing_on(session: Session, mother: Animal, on: date) -> Pairing | None:
    return session.exec(
        select(Pairing)
        .where(
            Pairing.dam_id == mother.id,
            col(Pairing.started) <= on,
            col(Pairing.ended).is_(None) | (col(Pairing.ended) >= on),
        )
        .order_by(col(Pairing.started).desc())
    ).first()


def _id(animal: Animal) -> int:
    assert animal.id is not None  # noqa: S101 - it is in the book
    return animal.id
