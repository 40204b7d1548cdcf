"""Who swam together, held against who is written down as sire and as paired."""

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

from sqlmodel import Session, col, select

from colony.acts.book.checks.finding import Finding
from colony.acts.litters.possible_sires import SireFinder, passed_over_sentence
from colony.acts.litters.sires import OTHER_MALE
from colony.acts.pairings.pairings import apart_today, bring_together
from colony.records import Animal, Overruling, Pairing, PairingSire, Tank
from colony.refusals.base import Refusal, act
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.company import read_company, read_housed
from colony.store.readers.litters.dams import read_dams
from colony.store.readers.litters.parents import read_parents


def sires_were_with_her(session: Session, today: date) -> Iterator[Finding]:
    """Who was with a dam when she may have conceived is among the sires, and the sires were there."""
    try:
        yield from list(_sires_held_against_stays(session, today))
    except Refusal:
        # A pedigree or a setting that cannot be: another check names it.
        return


def _sires_held_against_stays(session: Session, today: date) -> Iterator[Finding]:
    herd, lives = read_herd(session), read_lives(session)
    dams, parents = read_dams(session, herd), read_parents(session, herd)
    company = read_company(session, herd, lives, days=(date.min, today))
    finder, sure = SireFinder(session, herd, lives, dams), _sure(session)
    housed = read_housed(session)
    tested = {row.litter_id for row in herd.rows if row.litter_id and row.sire_id}
    for dam_id, record in dams.items():
        mother = herd.by_id(dam_id)
        prior = lives.of(mother.species).gestation()
        for birth in record.births:
            sires = [sire for sire, _ in parents.sires_of_litter(birth.id)]
            possible = finder.of_litter(dam_id, sires, birth.born, company)
            remedies = (possible.as_edit(birth.code),)
            named = {herd.by_id(sire).tag: sire for sire in sires if sire}
            first = birth.born - timedelta(days=round(prior.high_days))
            last = birth.born - timedelta(days=round(prior.low_days))
            for tag, sire_id in named.items():
                known = all(housed.on_some(each, first, last) for each in (dam_id, sire_id))
                if known and tag not in possible.met:
                    problem = f"{tag} was in no tank with {mother.tag} from {first} to {last}"
                    yield Finding("sire in reach", False, birth.code, problem, remedies)
            if birth.id in tested:
                continue
            for tag, how in possible.passed_over(named).items():
                yield Finding(
                    "sires",
                    False,
                    birth.code,
                    passed_over_sentence(mother.tag, tag, how),
                    remedies,
                    accepted=sure.get((dam_id, f"litter {birth.code}: {tag} "), ""),
                )


def _sure(session: Session) -> Mapping[tuple[int, str], str]:
    """Why the breeder is sure of a sire, by the dam, and the litter with the other male."""
    query = select(Overruling).where(Overruling.guard == OTHER_MALE)
    return {(row.animal_id, row.what.partition("was ")[0]): row.why for row in session.exec(query)}


def pairings_have_begun(session: Session, today: date) -> Iterator[Finding]:
    """The dam and a sire of a pairing that runs are in one tank, as far as is known."""
    query = (
        select(Pairing, Tank.code)
        .join(Tank, col(Pairing.tank_id) == col(Tank.id), isouter=True)
        .where(col(Pairing.ended).is_(None), col(Pairing.started) <= today)
        .order_by(col(Pairing.id))
    )
    for pairing, tank in session.exec(query).all():
        dam = session.get_one(Animal, pairing.dam_id)
        males = session.exec(
            select(Animal)
            .join(PairingSire, col(PairingSire.sire_id) == col(Animal.id))
            .where(PairingSire.pairing_id == pairing.id)
            .order_by(col(Animal.id))
        ).all()
        apart = apart_today(session, dam, males, today)
        if males and len(apart) == len(males):
            where = "; ".join(each.sentence for each in apart)
            problem = f"is to be paired since {pairing.started}, and not begun: {where}"
            remedies = (bring_together(apart, tank), act("pairing end", dam.tag))
            yield Finding("pairing", False, dam.tag, problem, remedies)
