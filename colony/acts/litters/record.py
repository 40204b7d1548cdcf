"""Record a litter: the birth, its pups, and where they now swim."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session

from colony.acts.animals.days import refuse_future
from colony.acts.animals.guards import Decision, guard, refuse_doubts
from colony.acts.animals.parents import PossibleParent, find_parent, find_sires
from colony.acts.litters.due import due_litters
from colony.acts.litters.gestation import find_conception, judge_birth
from colony.acts.litters.possible_sires import PossibleSires, SireFinder
from colony.acts.litters.pups import next_litter_code, settle_in, write_pups
from colony.acts.litters.sires import keep_certainty, sires_of_pairing, write_sires
from colony.acts.tanks.loads import read_house_today
from colony.acts.tanks.placing import find_usable_tank, reasons_against
from colony.notation.days import Day
from colony.notation.fields.facts import LitterFacts
from colony.notation.pups import PupCount
from colony.notation.shares import SireShare, show_sires
from colony.planning.guards.judge import Proposal
from colony.planning.guards.plausible import doubts_of_litter
from colony.planning.guards.table import BEAR
from colony.planning.tanks.load import COMING, coming_pups
from colony.records import Animal, Litter, Species, Tank
from colony.refusals.base import Advice, act
from colony.refusals.litters import DeadDam, LitterTwice, NobodyBorn, SiresPassOver
from colony.refusals.tanks import TankDoesNotFit
from colony.store.journal.journal import tell
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.dams import DamRecord, read_dams
from colony.store.readers.pedigree import litter_kin, refuse_impossible_pedigree


@dataclass(frozen=True)
class LitterRecorded:
    """A litter as it was written down, the inbreeding of its pups, and what looks odd."""

    litter: str
    dam: str
    sires: tuple[str, ...]
    sire_shares: tuple[str, ...]
    born: date
    pups: tuple[str, ...]
    dead: int
    tank: str | None
    inbreeding: float
    inbreeding_low: float
    inbreeding_high: float
    completeness: float
    warnings: tuple[str | Advice, ...]


def record_litter(
    session: Session,
    /,
    *,
    dam: str,
    born: date,
    pups: PupCount,
    tank: str | None = None,
    anyway: bool = False,
    why: str | None = None,
    ask: bool = False,
    today: date,
    **facts: Any,  # noqa: ANN401 - the facts of a birth
) -> LitterRecorded:
    """Write down a birth: the litter, a pup for each live young, and where they now swim.

    `facts` are those of `BIRTH_FACTS`. Without `sires` they are the grown males who were with her
    when she may have conceived, each with his share: one sire, not known which. Without `tank`
    the pups stay where she is. The birth ends the pregnancy. `anyway` overrides the limits of the
    tank, and with a reason what stands against her as a dam. Sires that pass over a male who was
    with her are warned of; with `ask` they are refused unless `anyway`; a reason is kept.

    Raises
    ------
    SiresPassOver
        With `ask`.
    NoSuchTag, WrongSexForParent, ParentNotOlder, DeadDam, NotYet, NobodyBorn
    LitterTwice, TooSoonAfterBirth, ImpossibleGestation, SireCannotBe
    NoSuchTank, TankRetired, TankDoesNotFit, StandsAgainst, AnywayNeedsWhy, HardlyMeant
    """
    own = LitterFacts(**facts)
    dead = own.get("dead", 0)
    refuse_future("The birth", born, today)
    mother = find_parent(session, dam, "dam", pup="her pups", born=Day(born))
    if mother.ended_on is not None and mother.ended_on < born:
        raise DeadDam(mother.tag, mother.status, mother.ended_on, born)
    lives = read_lives(session)
    high = lives.of(_species(session, mother)).traits["litter_high"]
    many = refuse_doubts(doubts_of_litter(mother.tag, pups.total + dead, high), anyway=anyway)
    if not pups.total and not dead:
        raise NobodyBorn(mother.tag)
    decision = Decision(anyway=anyway, why=why)
    doubts = guard(session, Proposal(BEAR, born), [mother], decision)
    herd = read_herd(session)
    dams = read_dams(session, herd)
    record = dams.get(_id(mother), DamRecord())
    if (
        twin := next((litter for litter in record.births if litter.born == born), None)
    ) is not None:
        raise LitterTwice(mother.tag, twin.code, born)
    fathers = find_sires(session, own.get("sires", ()), pup="her pups", born=Day(born))
    conception = find_conception(session, mother, record, fathers, born)
    pairing = conception.pairing
    possible = SireFinder(session, herd, lives, dams).find(_id(mother), conception, born)
    named = {father.animal.tag for father in fathers if father.animal}
    others = possible.passed_over(named) if fathers else {}
    if others and ask and not anyway:
        was = [f"{tag} was {how}" for tag, how in others.items()]
        raise SiresPassOver(mother.tag, was, show_sires(possible.shares))
    fathers = (
        fathers
        or find_sires(session, possible.shares, pup="her pups", born=Day(born))
        or sires_of_pairing(session, pairing)
    )
    warnings = judge_birth(mother, record, fathers, born, conception)
    place, place_warnings = _find_place(session, mother, tank, pups, anyway=anyway, today=today)
    nursery = _allotted(session, mother, today) if pups.total and tank is None else None
    litter = Litter(
        code=next_litter_code(session, born.year),
        dam_id=_id(mother),
        pairing_id=pairing.id if pairing else None,
        tank_id=place.id if place else None,
        born=born,
        live=pups.total,
        **own.columns(),
    )
    session.add(litter)
    session.flush()
    write_sires(session, litter, fathers)
    if others and anyway and (ask or why):
        keep_certainty(session, litter, others, why)
    doubtful = _sires_told(litter, mother.tag, possible, fathers, asked=bool(own.get("sires")))
    young = write_pups(session, litter, mother, fathers, pups)
    settle_in(session, young, place, litter)
    kin = litter_kin(refuse_impossible_pedigree(session), litter)
    tell(
        session,
        f"{mother.tag} bore {pups}{f' and {dead} dead' if dead else ''}: litter {litter.code}",
    )
    return LitterRecorded(
        litter=litter.code,
        dam=mother.tag,
        sires=tuple(kin.sires),
        sire_shares=tuple(show_sires([_share(father) for father in fathers])),
        born=litter.born,
        pups=tuple(pup.tag for pup in young),
        dead=litter.dead,
        tank=place.code if place else None,
        inbreeding=kin.inbreeding,
        inbreeding_low=kin.low,
        inbreeding_high=kin.high,
        completeness=kin.completeness,
        warnings=(
            *many,
            *doubts,
            *warnings,
            *doubtful,
            *place_warnings,
            *_offered(place, nursery, litter),
        ),
    )


def _sires_told(
    litter: Litter,
    dam: str,
    possible: PossibleSires,
    fathers: Sequence[PossibleParent],
    *,
    asked: bool,
) -> list[Advice]:
    """Say who was passed over; or that several are possible, where the book proposed them."""
    if asked or not possible.shares:
        named = {father.animal.tag for father in fathers if father.animal}
        return possible.warnings(dam, litter.code, named)
    if len(possible.was) < 2 or litter.pups_may_differ:  # noqa: PLR2004 - one male is no doubt
        return []
    was = ", ".join(f"{tag} {how}" for tag, how in possible.was.items())
    return [
        Advice(
            f"One of several is the sire, by the days with her: {was}. If each pup may have "
            "another sire, say so.",
            (act("litter edit", litter.code, pups_may_differ=True),),
        )
    ]


def _share(father: PossibleParent) -> SireShare:
    return SireShare(father.animal.tag if father.animal else None, father.share)


def _allotted(session: Session, mother: Animal, today: date) -> str | None:
    """The nursery that her litter was allotted, if it was."""
    due = due_litters(session, today=today)
    return next((each.nursery_tank for each in due if each.dam == mother.tag), None)


def _offered(place: Tank | None, nursery: str | None, litter: Litter) -> list[Advice]:
    """Offer pups that are with adults the nursery that waits for them."""
    if nursery is None or (place and (place.role == "nursery" or place.code == nursery)):
        return []
    where = f" in {place.code}, with grown animals" if place else ""
    return [
        Advice(
            f"The pups are{where}; {nursery} is kept for them.",
            (act("tank move", f"litter {litter.code}", nursery),),
        )
    ]


def _find_place(
    session: Session, mother: Animal, code: str | None, pups: PupCount, *, anyway: bool, today: date
) -> tuple[Tank | None, Sequence[str | Advice]]:
    """The tank for the pups: the one asked for if they fit, else where the dam is."""
    house = read_house_today(session, today)
    if code is None:
        tank_id = house.tank_of.get(_id(mother))
        if tank_id is None and pups.total:
            homeless = f"{mother.tag} is in no tank, so her pups are in none: move them to one."
            return None, [Advice(homeless, (act("tank move"),))]
        return (session.get(Tank, tank_id) if tank_id else None), []
    tank = find_usable_tank(session, code)
    lives, herd = read_lives(session), read_herd(session)
    width_mm = lives.of(herd.by_id(_id(mother)).species).traits["birth_width_mm"]
    coming = coming_pups(pups.total, width_mm)
    with_dam = house.with_family(mother.tag, COMING)
    found = reasons_against(session, with_dam, tank, coming, today)
    reasons = [reason.sentence for reason in found]
    if reasons and not anyway:
        raise TankDoesNotFit(tank.code, reasons)
    return tank, reasons


def _species(session: Session, animal: Animal) -> str | None:
    species = session.get(Species, animal.species_id) if animal.species_id else None
    return species.name if species else None


def _id(animal: Animal) -> int:
    assert animal.id is not None  # noqa: S101 - it is in the book
    return animal.id
