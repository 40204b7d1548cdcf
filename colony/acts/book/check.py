"""Look the whole book over: what cannot be, and what a person would find odd."""

from datetime import date

from sqlmodel import Session

from colony.acts.book.checks import animals, database, parents
from colony.acts.book.checks import litters as births
from colony.acts.book.checks import tanks as housing
from colony.acts.book.checks.finding import Check, Finding

CHECKS: tuple[Check, ...] = (
    database.sound_file,
    database.rows_keep_their_rules,
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
    found: list[Finding] = []
    for check in CHECKS:
        try:
            found += check(session, today)
        except ValueError:
            # A day that is none cannot be read; the rule that it breaks has named the row.
            if not any(one.check == "rule" for one in found):
                raise
    return sorted(found, key=lambda one: not one.wrong)
