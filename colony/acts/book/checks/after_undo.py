"""Which checks can find something that taking an act back broke, by what was written."""

from collections.abc import Iterable
from datetime import date

from sqlmodel import Session

from colony.acts.book.checks import animals, parents
from colony.acts.book.checks import litters as births
from colony.acts.book.checks.finding import Check, Finding
from colony.store.journal.steps import RowChange

_PARENTAGE = {
    "animal": {"dam_id", "sire_id", "litter_id"},
    "litter": {"dam_id", "pups_may_differ"},
    "possible_sire": {"litter_id", "animal_id", "sire_id", "share"},
}
_BIRTHS = {"litter": {"dam_id", "born"}}


def _and(columns: dict[str, set[str]], **more: set[str]) -> dict[str, set[str]]:
    return columns | {table: columns.get(table, set()) | names for table, names in more.items()}


JUDGED: tuple[tuple[Check, dict[str, set[str]]], ...] = (
    (parents.parentage, _and(_PARENTAGE, animal={"sex", "born", "born_precision"})),
    (
        parents.sexes_of_pairings,
        {"animal": {"sex"}, "pairing": {"dam_id"}, "pairing_sire": {"sire_id"}},
    ),
    (parents.shares_sum_to_one, {"possible_sire": _PARENTAGE["possible_sire"]}),
    (births.births_apart, _BIRTHS),
    (
        births.gestations,
        _and(_BIRTHS, pairing={"dam_id", "started", "ended"}, animal={"species_id"}),
    ),
    (births.dams_at_birth, _and(_BIRTHS, animal={"born", "status", "ended_on"})),
    (births.pups_of_litters, _and(_BIRTHS, animal={"born", "litter_id"})),
    (
        animals.within_life,
        {
            "animal": {"born", "ended_on"},
            "measurement": {"animal_id", "measured_on"},
            "feeding": {"animal_id", "fed_on"},
            "hold": {"animal_id", "started"},
            "placement": {"animal_id", "entered_on"},
            "pairing": {"dam_id", "started"},
        },
    ),
    (
        animals.ends_are_complete,
        {
            "animal": {"status"},
            "placement": {"left_on"},
            "pairing": {"ended"},
            "hold": {"ended"},
        },
    ),
)
"""Each check of rows beside other rows, and the columns that it looks at, by their tables.

What the database itself holds (a tag twice, two tanks on one day) needs none.
"""


def checks_of(undone: Iterable[RowChange]) -> list[Check]:
    """The checks that can find something once these steps are taken back.

    A row that goes breaks nothing but the shares that it was one of.
    """
    written: dict[str, set[str]] = {}
    for step in undone:
        if step.before or step.table == "possible_sire":
            written.setdefault(step.table, set()).update(step.before or step.after or {})
    return [
        check
        for check, columns in JUDGED
        if any(written.get(table, set()) & names for table, names in columns.items())
    ]


def wrong_findings(session: Session, checks: Iterable[Check], today: date) -> list[Finding]:
    """What some checks find that cannot be; what is only odd an act would let pass."""
    return [finding for check in checks for finding in check(session, today) if finding.wrong]
