"""Look the whole book over: what cannot be, and what a person would find odd."""

from datetime import date

from sqlmodel import Session

from colony.acts.checking import animals, births, database, housing, parents
from colony.acts.checking.finding import Check, Finding

CHECKS: tuple[Check, ...] = (
    database.sound_file,
    database.counters_go_on,
    database.told_by_journal,
    database.readable_settings,
    database.clock_of_journal,
    parents.possible_pedigree,
    parents.sexes_of_pairings,
    parents.parents_are_older,
    parents.shares_sum_to_one,
    births.births_apart,
    births.gestations,
    births.dams_at_birth,
    births.sires_in_reach,
    births.pups_of_litters,
    animals.transponders,
    animals.born_by_now,
    animals.within_life,
    animals.ends_are_complete,
    animals.widths,
    housing.one_tank_a_day,
    housing.somewhere,
    housing.headcounts,
)
"""Every check. Each has a line in docs/safety.md."""


def check_book(session: Session, *, today: date) -> list[Finding]:
    """Run every check of the book; what is wrong comes before what is odd."""
    found = [finding for check in CHECKS for finding in check(session, today)]
    return sorted(found, key=lambda one: not one.wrong)
