"""Look the whole book over: what cannot be, and what a person would find odd."""

from datetime import date

from sqlmodel import Session

from colony.acts.book.checks import animals, database, parents
from colony.acts.book.checks import litters as births
from colony.acts.book.checks import orders as sale
from colony.acts.book.checks import pairings as pairs
from colony.acts.book.checks import sires as fathers
from colony.acts.book.checks import tanks as housing
from colony.acts.book.checks.finding import Check, Finding
from colony.store.damage import broken_rules
from colony.store.failures import STUMBLES

LEVELS = ("wrong", "odd", "accepted")
"""How much a finding weighs; what was accepted with a reason is listed and not counted."""

CHECKS: tuple[Check, ...] = (
    database.sound_file,
    database.rows_keep_their_rules,
    database.counters_go_on,
    database.journal_is_a_chain,
    database.as_the_journal_has_it,
    database.readable_settings,
    database.clock_of_journal,
    parents.possible_pedigree,
    parents.sexes_of_pairings,
    parents.parents_are_older,
    parents.shares_sum_to_one,
    pairs.nothing_stands_against,
    births.births_apart,
    births.gestations,
    births.dams_at_birth,
    fathers.sires_were_with_her,
    fathers.pairings_have_begun,
    births.pups_of_litters,
    animals.transponders,
    animals.born_by_now,
    animals.within_life,
    animals.ends_are_complete,
    animals.widths,
    housing.one_tank_a_day,
    housing.somewhere,
    housing.headcounts,
    sale.kept_once_and_here,
    sale.events_follow,
    sale.people_as_sealed,
)
"""Every check. Each has a line in docs/safety.md."""


def check_book(session: Session, *, today: date) -> list[Finding]:
    """Run every check of the book; what is wrong comes first, what was accepted last.

    A check that stumbles over a damaged row is passed over, and that is told.
    """
    found = [finding for check in CHECKS for finding in _run(check, session, today)]
    return sorted(found, key=lambda finding: LEVELS.index(finding.level))


def _run(check: Check, session: Session, today: date) -> list[Finding]:
    try:
        return list(check(session, today))
    except STUMBLES:
        if next(broken_rules(session.connection()), None) is None:
            raise
        asked = check.__name__.replace("_", " ")
        problem = f"the check of {asked} cannot be made before the damaged rows are corrected"
        return [Finding("database", True, "the book", problem, database.REBUILD)]
