"""The sections of an animal's page, in words and drawings."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from colony.acts.animals.page import AnimalDetails, show_animal
from colony.acts.pedigree.family import GENERATIONS, FamilyMember, family_of
from colony.acts.pedigree.paths import Explained, explain
from colony.notation.days import show_span
from colony.notation.fields.animals import DECISIONS, MARKS
from colony.notation.house import say_mass
from colony.notation.words import SEX_WORDS
from colony.screens.frame.dates import short_day
from colony.screens.frame.session import BookSession
from colony.screens.widgets.family_tree import draw_family

PUPS_SHOWN, ANCESTORS_SHOWN, PATHS_SHOWN = 40, 6, 4


@dataclass(frozen=True)
class WhatIsKnown:
    """Everything on record of one animal."""

    page: AnimalDetails
    family: FamilyMember
    why: Explained


def what_is_known(session: Any, *, tag: str, today: date) -> WhatIsKnown:  # noqa: ANN401 - an open session
    """Ask for the page and the family of an animal."""
    return WhatIsKnown(
        show_animal(session, tag=tag, today=today),
        family_of(session, tag=tag),
        explain(session, tag=tag),
    )


def sections(known: WhatIsKnown, book_session: BookSession) -> Iterator[tuple[str, str]]:
    """Each section that has something to say: its title and its text."""
    page = known.page
    yield page.tag, _identity(page, book_session)
    yield "Inbreeding", _inbreeding(page) + _why(known.why)
    yield "Family", draw_family(known.family, GENERATIONS)
    parts = (
        ("Widths", _growth(page, book_session)),
        ("Pups", _pups(page)),
        ("Tanks", _placements(page)),
        ("Holds", _holds(page)),
        ("Done anyway", _done_anyway(page)),
        ("Fed", _fed(page)),
        ("Note", page.facts["note"] or ""),
    )
    yield from ((title, text) for title, text in parts if text)


def _done_anyway(page: AnimalDetails) -> str:
    """What stood against an act with it, and why it was done all the same."""
    return "\n".join(
        f"{short_day(done['on'])}  {' and '.join(done['with'])}: {done['what']}; {done['why']}"
        for done in page.done_anyway
    )


def _identity(page: AnimalDetails, book_session: BookSession) -> str:
    facts = page.facts
    age = f", {show_span(page.age_days)} old" if page.age_days is not None else ""
    width = next((w["disc_width_mm"] for w in reversed(page.widths) if w["disc_width_mm"]), None)
    species = facts["species"] or "hybrid, see parents"
    who = f"{facts['name'] or page.tag}, {SEX_WORDS[facts['sex']]} {species}"
    line = f", line {facts['line']}" if facts["line"] else ""
    litter = f", litter {page.litter}" if page.litter else ""
    lines = [
        f"{who}{line}",
        f"born {facts['born'] or 'on a day not known'}{age}; {facts['origin']}{litter}",
        f"{_where(page)}; disc width {book_session.length(width)}",
    ]
    if facts["arrived"]:
        seller = facts["arrived_from"] or "not said"
        lines.append(f"arrived {short_day(facts['arrived'])} from {seller}")
    return "\n".join([*lines, *_marks(page)])


_WORDS = {
    "held_back": "● held back as a breeder",
    "reserved_for": "● reserved for {}",
    "breeding_ban": "! not to be bred: {}",
}
"""What says more than the words of the catalogue and the fact."""


def _marks(page: AnimalDetails) -> Iterator[str]:
    """What is known of an animal beyond its birth, a line each; the line stands beside its name."""
    for field in (*DECISIONS, *MARKS):
        fact = page.facts[field.name]
        if fact and field.name != "line":
            words = _WORDS.get(field.name, f"{field.words_for_it} {{}}")
            yield words.format(short_day(fact) if isinstance(fact, date) else fact)


def _where(page: AnimalDetails) -> str:
    facts = page.facts
    if facts["status"] == "present":
        return f"in {page.tank}" if page.tank else "! in no tank"
    why = f", {facts['ended_why']}" if facts["ended_why"] else ""
    ended = short_day(facts["ended_on"])
    when = (
        f"between {short_day(facts['last_seen'])} and {ended}"
        if facts["last_seen"]
        else f"on {ended}"
    )
    return f"○ {facts['status']} {when}{why}"


def _inbreeding(page: AnimalDetails) -> str:
    spread = (
        f", between {page.inbreeding_low:.4f} and {page.inbreeding_high:.4f}"
        if page.inbreeding_low != page.inbreeding_high
        else ""
    )
    known = (
        "no ancestor is known, so 0 says nothing"
        if not page.completeness
        else f"{page.completeness:.1f} generations of ancestors known"
    )
    return f"F {page.inbreeding:.4f}{spread}; {known}"


def _why(why: Explained) -> str:
    """Each common ancestor of its parents, the paths through it, and what it adds to F."""
    shown = why.ancestors[:ANCESTORS_SHOWN]
    lines = [
        f"\n{ancestor.adds:.4f} through {ancestor.ancestor} ({ancestor.paths} {'path' if ancestor.paths == 1 else 'paths'})"
        for ancestor in shown
    ]
    rest = why.ancestors[ANCESTORS_SHOWN:]
    if rest:
        lines.append(f"\n{sum(ancestor.adds for ancestor in rest):.4f} through {len(rest)} more")
    paths = [
        f"\n  {' - '.join(path.path)} adds {path.adds:.4f}" for path in why.paths[:PATHS_SHOWN]
    ]
    return "".join([*lines, *paths])


def _growth(page: AnimalDetails, book_session: BookSession) -> str:
    widths = [width for width in page.widths if width["disc_width_mm"]]
    most = max((width["disc_width_mm"] for width in widths), default=1)
    return "\n".join(
        f"{width['on']}  {book_session.length(width['disc_width_mm']):>8}  "
        f"{'█' * round(width['disc_width_mm'] / most * 24)}"
        f"{'  ' + say_mass(width['mass_g']) if width['mass_g'] else ''}"
        for width in widths
    )


def _pups(page: AnimalDetails) -> str:
    shown = page.pups[:PUPS_SHOWN]
    more = f" and {len(page.pups) - len(shown)} more" if len(page.pups) > len(shown) else ""
    return f"{len(page.pups)}: {', '.join(shown)}{more}" if shown else ""


def _placements(page: AnimalDetails) -> str:
    return "\n".join(
        f"{placement['tank']:<8} {placement['entered_on']} to {placement['left_on'] or 'now'}"
        for placement in reversed(page.placements)
    )


def _holds(page: AnimalDetails) -> str:
    return "\n".join(
        f"{hold['from']} to {hold['to'] or 'now'}: {hold['why']}" for hold in page.holds
    )


def _fed(page: AnimalDetails) -> str:
    return "\n".join(
        f"{feeding['on']}  {'took' if feeding['took'] else 'refused'} {feeding['food']}"
        for feeding in reversed(page.feedings[-12:])
    )
