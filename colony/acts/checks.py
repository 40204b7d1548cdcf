"""Look the whole book over: what cannot be, and what a person would find odd."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from math import isclose

from sqlalchemy import text
from sqlmodel import Session, col, select

from colony.planning.gestation_judgement import SHORTEST_SHARE
from colony.records import Animal, Measurement
from colony.refusals.base import Refusal
from colony.store.readers.dams import read_dams
from colony.store.readers.herd import read_herd, read_places
from colony.store.readers.lives import read_lives
from colony.store.readers.parents import read_parents
from colony.store.readers.pedigree import read_lineage

SHRINKS_MM = 5
"""A later width this much smaller is more than the error of a tape; common practice, no source."""


@dataclass(frozen=True)
class Finding:
    """Something that is wrong or odd, where, and the command that mends it."""

    check: str
    wrong: bool
    where: str
    problem: str
    mend: str


Check = Callable[[Session, date], Iterator[Finding]]


def check_book(session: Session, *, today: date) -> list[Finding]:
    """Run every check of the book; what is wrong comes before what is odd."""
    found = [finding for check in CHECKS for finding in check(session, today)]
    return sorted(found, key=lambda one: not one.wrong)


def _database(session: Session, _today: date) -> Iterator[Finding]:
    if session.get_bind().dialect.name != "sqlite":
        return
    for (said,) in session.execute(text("PRAGMA integrity_check")):
        if said != "ok":
            yield Finding("database", True, "the file", str(said), "restore a backup of the book")
    for table, row, target, _ in session.execute(text("PRAGMA foreign_key_check")):
        problem = f"refers to a row of {target} that is not there"
        yield Finding("database", True, f"{table} {row}", problem, "restore a backup of the book")


def _pedigree(session: Session, _today: date) -> Iterator[Finding]:
    try:
        read_lineage(session).pedigree  # noqa: B018 - building it is the check
    except Refusal as refusal:
        yield Finding(
            "pedigree", True, "parents", refusal.sentence, "colony animal edit or litter edit"
        )


def _parents_older(session: Session, _today: date) -> Iterator[Finding]:
    parents = read_parents(session, read_herd(session))
    for row in parents.herd.rows:
        for parent_id in (parents.dam_id(row), *(sire for sire, _ in parents.sires(row))):
            parent = parents.herd.by_id(parent_id) if parent_id else None
            if parent and parent.born and row.birthday and parent.born >= row.birthday.last:
                problem = (
                    f"its parent {parent.tag} was born on {parent.born}, not before {row.born}"
                )
                yield Finding(
                    "parent age", True, row.tag, problem, f"colony animal edit {row.tag} --born DAY"
                )


def _shares(session: Session, _today: date) -> Iterator[Finding]:
    parents = read_parents(session, read_herd(session))
    for litter_id, litter in parents.litters.items():
        total = sum(share for _, share in litter.sires)
        if litter.sires and not isclose(total, 1, abs_tol=1e-6):
            where = f"litter of {parents.tag(litter.dam_id)} (row {litter_id})"
            problem = f"the shares of its sires sum to {total:.4g}"
            yield Finding(
                "shares", True, where, problem, "colony litter edit CODE --sire TAG=SHARE ..."
            )


def _births_apart(session: Session, _today: date) -> Iterator[Finding]:
    herd, lives = read_herd(session), read_lives(session)
    for dam_id, record in read_dams(session, herd).items():
        row = herd.by_id(dam_id)
        least = SHORTEST_SHARE * lives.of(row.species).gestation().low_days
        births = sorted(record.births, key=lambda one: one.born)
        for one, after in pairwise(births):
            if (days := (after.born - one.born).days) < least:
                problem = f"litters {one.code} and {after.code} of {row.tag} are {days} days apart"
                yield Finding(
                    "gestation",
                    True,
                    after.code,
                    problem,
                    f"colony litter edit {after.code} --born DAY",
                )


def _shrinking(session: Session, _today: date) -> Iterator[Finding]:
    last: dict[int, tuple[str, int]] = {}
    query = (
        select(Animal.tag, Measurement)
        .join(Measurement, col(Measurement.animal_id) == col(Animal.id))
        .where(col(Measurement.width_mm).is_not(None))
        .order_by(col(Measurement.animal_id), col(Measurement.measured_on))
    )
    for tag, row in session.exec(query):
        width_mm = row.width_mm or 0
        _, before_mm = last.get(row.animal_id, (tag, width_mm))
        if before_mm - width_mm >= SHRINKS_MM:
            problem = f"measured {width_mm} mm on {row.measured_on}, {before_mm - width_mm} mm less than before"
            yield Finding(
                "width",
                False,
                tag,
                problem,
                f"colony pup measure {tag} WIDTH --on {row.measured_on}",
            )
        last[row.animal_id] = (tag, max(before_mm, width_mm))


def _nowhere(session: Session, today: date) -> Iterator[Finding]:
    places = read_places(session, today)
    for row in read_herd(session).rows:
        if row.status == "present" and row.id not in places:
            yield Finding(
                "place",
                False,
                row.tag,
                "is present and in no tank",
                f"colony tank move {row.tag} TANK",
            )


def _early(session: Session, today: date) -> Iterator[Finding]:
    for row in read_herd(session).rows:
        if row.born and row.born > today:
            problem = f"was born on {row.born}, after today: is the clock right?"
            yield Finding(
                "clock", True, row.tag, problem, f"colony animal edit {row.tag} --born DAY"
            )


CHECKS: tuple[Check, ...] = (
    _database,
    _pedigree,
    _parents_older,
    _shares,
    _births_apart,
    _shrinking,
    _nowhere,
    _early,
)
"""Every check, those that cannot be before those that are odd."""
