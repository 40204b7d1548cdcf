"""What a pup's paper says, as values, as signed facts, and in sentences."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from colony.notation.house import say_length
from colony.notation.words import SEX_WORDS
from colony.refusals.base import listed

VERSION = 1

NUMBERS: Mapping[str, int] = {
    "version": 1,
    "tag": 2,
    "species": 3,
    "sex": 4,
    "born": 5,
    "dam": 6,
    "sires": 7,
    "dams_parents": 8,
    "sires_parents": 9,
    "inbreeding_e4": 10,
    "generations_e1": 11,
    "line": 12,
    "transponder": 13,
    "width_mm": 14,
    "measured_on": 15,
    "house": 16,
    "issued_on": 17,
    "origin": 18,
    "foods": 19,
}
"""The number of each fact in the code: short, and never given to another fact."""

_NAMES = {number: name for name, number in NUMBERS.items()}


@dataclass(frozen=True)
class PupPaper:
    """Everything on the paper of one animal; parents as written, "" or () where unknown."""

    tag: str
    species: str
    sex: str
    born: str
    dam: str
    sires: tuple[str, ...]
    dams_parents: tuple[str, ...]
    sires_parents: tuple[str, ...]
    inbreeding: float
    generations: float
    line: str
    transponder: str
    widths: tuple[tuple[date, int], ...]
    foods: tuple[str, ...]
    origin: str
    house: str
    issued_on: date


def facts_of(paper: PupPaper) -> dict[int, Any]:
    """What is signed: every fact that is known, F in ten-thousandths, generations in tenths."""
    last = paper.widths[-1] if paper.widths else None
    told: dict[str, Any] = {
        "version": VERSION,
        "tag": paper.tag,
        "species": paper.species,
        "sex": paper.sex,
        "born": paper.born,
        "dam": paper.dam,
        "sires": list(paper.sires),
        "dams_parents": list(paper.dams_parents),
        "sires_parents": list(paper.sires_parents),
        "inbreeding_e4": round(paper.inbreeding * 10_000),
        "generations_e1": round(paper.generations * 10),
        "line": paper.line,
        "transponder": paper.transponder,
        "width_mm": last[1] if last else None,
        "measured_on": last[0].isoformat() if last else None,
        "house": paper.house,
        "issued_on": paper.issued_on.isoformat(),
        "origin": paper.origin,
        "foods": list(paper.foods),
    }
    return {NUMBERS[name]: value for name, value in told.items() if value not in (None, "", [])}


def named(facts: Mapping[int, Any]) -> dict[str, Any]:
    """Signed facts by their names; one that this program does not know, by its number."""
    return {_NAMES.get(number, f"fact {number}"): value for number, value in sorted(facts.items())}


def sentences(facts: Mapping[int, Any]) -> list[str]:
    """Signed facts, to be held against the paper line by line."""
    known = named(facts)
    f, generations = known.get("inbreeding_e4", 0) / 10_000, known.get("generations_e1", 0) / 10
    width, measured = known.get("width_mm"), known.get("measured_on")
    lines = [
        ("Animal", known.get("tag")),
        ("Kind", f"{SEX_WORDS.get(known.get('sex', 'U'), '?')} {known.get('species', '?')}"),
        ("Born", known.get("born")),
        ("Dam", _with(known.get("dam"), known.get("dams_parents", ()))),
        ("Sire", _with(_either(known.get("sires", ())), known.get("sires_parents", ()))),
        ("Inbreeding", inbreeding_in_words(f, generations)),
        ("Line", known.get("line")),
        ("Transponder", known.get("transponder")),
        ("Width", f"{say_length(width)} on {measured}" if width else None),
        ("Takes", ", ".join(known.get("foods", ()))),
        ("Origin", known.get("origin")),
        ("House", known.get("house")),
        ("Issued", known.get("issued_on")),
    ]
    return [f"{what}: {words}" for what, words in lines if words]


def inbreeding_in_words(inbreeding: float, generations: float) -> str:
    """F with what it rests on, so that nothing known does not look like nothing shared."""
    if not generations:
        return "no ancestor is known, so nothing can be said"
    if inbreeding == 0:
        return f"F 0: no common ancestor of its parents in {generations:.1f} known generations"
    return f"F {inbreeding:.4f} ({100 * inbreeding:.1f} %), {generations:.1f} known generations"


def _either(names: Sequence[str]) -> str:
    return listed(list(names)) if names else ""


def _with(name: str | None, parents: Sequence[str]) -> str | None:
    if not name:
        return None
    return f"{name} ({' x '.join(parents)})" if parents else name
