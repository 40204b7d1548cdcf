"""Births: how far apart, how long carried, by whom, and whether their pups are in the book."""

from collections.abc import Iterator
from datetime import date
from itertools import pairwise

from sqlalchemy import func, select
from sqlmodel import Session, col

from colony.acts.book.checks.finding import Finding
from colony.acts.litters.gestation import YOUNG_DAM_DAYS, likeliest_pairing
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.judgement import SHORTEST_SHARE
from colony.records import Animal, Litter
from colony.refusals.base import act
from colony.store.readers.animals.herd import HerdRow, read_breeders
from colony.store.readers.animals.lives import read_lives
from colony.store.readers.litters.dams import BirthRow, DamRecord, read_dams
from colony.store.readers.rows import read_rows


def births_apart(session: Session, _today: date) -> Iterator[Finding]:
    """Two litters of a dam are at least a short gestation apart."""
    for row, record, prior in _dams(session):
        least = SHORTEST_SHARE * prior.low_days
        for before, after in pairwise(sorted(record.births, key=lambda birth: birth.born)):
            if (days := (after.born - before.born).days) < least:
                problem = (
                    f"litters {before.code} and {after.code} of {row.tag} are {days} days apart"
                )
                yield _of_birth(after, wrong=True, problem=problem)


def gestations(session: Session, _today: date) -> Iterator[Finding]:
    """Each birth fits the days on which the dam may have conceived."""
    for row, record, prior in _dams(session):
        for birth in record.births:
            found = likeliest_pairing(prior, record, record.pairings, birth.born)
            if found is None:
                continue
            judged = found[1]
            if judged.verdict != "plausible":
                problem = f"{row.tag} carried it {judged.reason}"
                yield _of_birth(birth, wrong=judged.verdict == "impossible", problem=problem)


def dams_at_birth(session: Session, _today: date) -> Iterator[Finding]:
    """A dam is alive and grown when she gives birth."""
    for row, record, _ in _dams(session):
        for birth in record.births:
            if row.ended_on and row.ended_on < birth.born:
                problem = (
                    f"{row.tag} {row.status} on {row.ended_on}, before this birth of {birth.born}"
                )
                yield _of_birth(birth, wrong=True, problem=problem)
            if row.born and 0 < (age := (birth.born - row.born).days) < YOUNG_DAM_DAYS:
                problem = f"{row.tag} was {age} days old at this birth"
                yield _of_birth(birth, wrong=False, problem=problem)


def pups_of_litters(session: Session, _today: date) -> Iterator[Finding]:
    """A litter has as many pups in the book as it says, and all are born on its day."""
    pups = func.count(col(Animal.id))
    counted = (
        select(col(Litter.code), col(Litter.live), pups)
        .select_from(Litter)
        .join(Animal, col(Animal.litter_id) == col(Litter.id), isouter=True)
        .group_by(col(Litter.id), col(Litter.code), col(Litter.live))
        .having(pups != col(Litter.live))
    )
    for code, live, there in read_rows(session, counted):
        problem = f"says {live} live pups, {there} are in the book"
        yield Finding("litter", False, code, problem, (act("book history", act="litter"),))
    dated = (
        select(col(Animal.tag), col(Animal.born), col(Litter.code), col(Litter.born))
        .select_from(Animal)
        .join(Litter, col(Animal.litter_id) == col(Litter.id))
        .where(col(Animal.born) != col(Litter.born))
    )
    for tag, born, code, day in read_rows(session, dated):
        problem = f"was born on {born}, its litter {code} on {day}"
        yield Finding("litter", True, tag, problem, (act("litter edit", code, born=""),))


def _dams(session: Session) -> Iterator[tuple[HerdRow, DamRecord, GestationPrior]]:
    herd, lives = read_breeders(session, since=date.max), read_lives(session)
    for dam_id, record in read_dams(session, herd).items():
        row = herd.by_id(dam_id)
        yield row, record, lives.of(row.species).gestation()


def _of_birth(birth: BirthRow, *, wrong: bool, problem: str) -> Finding:
    remedies = (act("litter edit", birth.code, born=""),)
    return Finding("gestation", wrong, birth.code, problem, remedies)
