"""Who may be paired, and who with whom: named rules, each with the reason it gives.

A rule can be overridden for everybody by its name (``rest``), or for one animal by name and
tag (``rest:Alma``). The thresholds are facts of the candidate, so that they come from its
species, its own record and the settings of the book.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from colony.notation.house import say_length

FEMALE, MALE = "F", "M"

GONE, SAME_SEX, KIN = "gone", "same_sex", "kin"
"""The rules against who is not here any more, whom no time makes a partner, and near kin."""

MARGIN = 1e-12
"""Kinship is summed in floating point: this much over a limit is not over it."""

NOBODY: frozenset[str] = frozenset()
"""No rule overridden."""


@dataclass(frozen=True)
class Candidate:
    """What the rules need to know of an animal on a day.

    `sex` is F, M or U. `status_since` is the day that it left. `width_mm` is its last disc
    width, measured on `width_on`; `mature_width_mm` and `mature_age_days` are those of its
    species and sex. `mature_seen` is evidence of its own: claspers, a birth, a sired litter.
    `held` and `breeding_ban` say why. `isolated_until` is the first day out of isolation.
    `gravid_since` and `due` are the likely dates of a pregnancy on record. `in_pairing_with`
    names the partners of its running pairings; `most_females` is how many a male may have.
    """

    tag: str
    sex: str
    species: str | None = None
    line: str | None = None
    status: str = "present"
    status_since: date | None = None
    age_days: int | None = None
    mature_age_days: int | None = None
    width_mm: float | None = None
    width_on: date | None = None
    mature_width_mm: float | None = None
    mature_seen: bool = False
    held: str | None = None
    isolated_until: date | None = None
    gravid_since: date | None = None
    due: date | None = None
    last_birth: date | None = None
    rest_days: int = 0
    in_pairing_with: tuple[str, ...] = ()
    most_females: int | None = None
    breeding_ban: str | None = None


@dataclass(frozen=True)
class Bar:
    """Why an animal or a pair is left out, and by which rule; `beside` is said and not kept."""

    name: str
    text: str
    beside: str = ""


Rule = Callable[[Candidate, date], str | None]
PairRule = Callable[[Candidate, Candidate], str | None]


def why_not(
    candidate: Candidate, today: date, overridden: frozenset[str] = NOBODY
) -> tuple[Bar, ...]:
    """Say why an animal may not be paired on a day; empty when it may."""
    return tuple(
        reason
        for reason in _reasons(candidate, today)
        if not is_overridden(reason, (candidate.tag,), overridden)
    )


def why_not_together(
    animal: Candidate, other: Candidate, overridden: frozenset[str] = NOBODY
) -> tuple[Bar, ...]:
    """Say why two animals may not be paired with each other, whatever each is by itself."""
    return tuple(
        reason
        for reason in _pair_reasons(animal, other)
        if not is_overridden(reason, (animal.tag, other.tag), overridden)
    )


def set_aside(
    animal: Candidate, other: Candidate, today: date, overridden: frozenset[str]
) -> tuple[Bar, ...]:
    """Name the reasons against `other` as a partner of `one` that hold but were overridden.

    So a cross that was asked for is still named as a cross.
    """
    tags = (animal.tag, other.tag)
    both = (r for r in _pair_reasons(animal, other) if is_overridden(r, tags, overridden))
    return (*set_aside_alone(other, today, overridden), *both)


def set_aside_alone(
    candidate: Candidate, today: date, overridden: frozenset[str]
) -> tuple[Bar, ...]:
    """Name the reasons against an animal by itself that hold but were overridden."""
    return tuple(
        r for r in _reasons(candidate, today) if is_overridden(r, (candidate.tag,), overridden)
    )


def unknown_rules(overridden: Iterable[str]) -> tuple[str, ...]:
    """Find the overrides that name no rule."""
    known = RULES.keys() | PAIR_RULES.keys() | {KIN}
    return tuple(sorted(word for word in overridden if word.split(":", 1)[0] not in known))


def not_here(status: str, since: date | None) -> str | None:
    """Say that an animal is gone, since when and how; the rule ``gone``."""
    if status == "present":
        return None
    return f"not here: {status} since {since}" if since else f"not here: {status}"


def _reasons(candidate: Candidate, today: date) -> Iterator[Bar]:
    for name, rule in RULES.items():
        text = rule(candidate, today)
        if text:
            yield Bar(name, text)


def _pair_reasons(animal: Candidate, other: Candidate) -> Iterator[Bar]:
    for name, rule in PAIR_RULES.items():
        text = rule(animal, other)
        if text:
            yield Bar(name, text)


def is_overridden(reason: Bar, tags: tuple[str, ...], overridden: frozenset[str]) -> bool:
    """Whether a rule is set aside, for everybody or for one of these animals."""
    return reason.name in overridden or any(f"{reason.name}:{tag}" in overridden for tag in tags)


def _gone(candidate: Candidate, _today: date) -> str | None:
    return not_here(candidate.status, candidate.status_since)


def _sex_unknown(candidate: Candidate, _today: date) -> str | None:
    return None if candidate.sex in {FEMALE, MALE} else "sex not recorded: look for claspers"


def _too_young(candidate: Candidate, _today: date) -> str | None:
    age, mature = candidate.age_days, candidate.mature_age_days
    if candidate.mature_seen or age is None or mature is None or age >= mature:
        return None
    return f"{age} {'day' if age == 1 else 'days'} old; {_kind(candidate)} is mature at {mature}"


def _too_small(candidate: Candidate, _today: date) -> str | None:
    if candidate.mature_seen or candidate.sex not in {FEMALE, MALE}:
        return None
    proof = "note its claspers" if candidate.sex == MALE else "note that she is mature"
    if candidate.width_mm is None and _old_enough(candidate):
        return None
    if candidate.width_mm is None:
        return f"maturity unknown: measure its disc width, or {proof}"
    if candidate.mature_width_mm is None:
        return f"maturity unknown: set the mature width of {_kind(candidate)}, or {proof}"
    if candidate.width_mm >= candidate.mature_width_mm:
        return None
    on = f" on {candidate.width_on}" if candidate.width_on else ""
    return (
        f"disc width {say_length(candidate.width_mm)}{on}; "
        f"{_kind(candidate)} is mature at {say_length(candidate.mature_width_mm)}"
    )


def _old_enough(candidate: Candidate) -> bool:
    """Age speaks for an animal that was never measured."""
    age, mature = candidate.age_days, candidate.mature_age_days
    return age is not None and mature is not None and age >= mature


def _held(candidate: Candidate, _today: date) -> str | None:
    return f"health hold: {candidate.held}" if candidate.held is not None else None


def _isolated(candidate: Candidate, today: date) -> str | None:
    if candidate.isolated_until is None or candidate.isolated_until <= today:
        return None
    return f"in isolation until {candidate.isolated_until}"


def _gravid(candidate: Candidate, _today: date) -> str | None:
    if candidate.gravid_since is None and candidate.due is None:
        return None
    since = f" since {candidate.gravid_since}" if candidate.gravid_since else ""
    due = f", due about {candidate.due}" if candidate.due else ""
    return f"gravid{since}{due}"


def _resting(candidate: Candidate, today: date) -> str | None:
    if candidate.last_birth is None:
        return None
    rested = candidate.last_birth + timedelta(days=candidate.rest_days)
    if rested <= today:
        return None
    return f"gave birth on {candidate.last_birth}; rests until {rested}"


def _paired(candidate: Candidate, _today: date) -> str | None:
    partners = candidate.in_pairing_with
    if candidate.sex == MALE:
        most = candidate.most_females
        if most is None or len(partners) < most:
            return None
        return f"already with {_and(partners)}: all that he serves" if partners else "serves nobody"
    return f"already with {_and(partners)}" if partners else None


def _banned(candidate: Candidate, _today: date) -> str | None:
    ban = candidate.breeding_ban
    return None if ban is None else f"not to be bred: {ban}"


RULES: dict[str, Rule] = {
    GONE: _gone,
    "sex": _sex_unknown,
    "age": _too_young,
    "width": _too_small,
    "hold": _held,
    "isolation": _isolated,
    "gravid": _gravid,
    "rest": _resting,
    "paired": _paired,
    "ban": _banned,
}
"""The rules about one animal, in the order in which reasons are given."""


def _same_animal(animal: Candidate, other: Candidate) -> str | None:
    return "it is the same animal" if animal.tag == other.tag else None


def _same_sex(animal: Candidate, other: Candidate) -> str | None:
    return both_are(animal.sex, other.sex)


def both_are(sex: str, other: str) -> str | None:
    """Say that two animals are of one sex; the rule ``same_sex``."""
    words = {FEMALE: "females", MALE: "males"}
    return f"both are {words[sex]}" if sex == other and sex in words else None


def _other_species(animal: Candidate, other: Candidate) -> str | None:
    if animal.species is None and other.species is None:
        return None
    if animal.species is None or other.species is None:
        unknown = animal if animal.species is None else other
        return f"species of {unknown.tag} not recorded"
    if animal.species == other.species:
        return None
    return f"a cross of species: {animal.tag} is {animal.species}, {other.tag} is {other.species}"


def _other_line(animal: Candidate, other: Candidate) -> str | None:
    if animal.line is None or other.line is None or animal.line == other.line:
        return None
    return f"a cross of lines: {animal.tag} is {animal.line}, {other.tag} is {other.line}"


PAIR_RULES: dict[str, PairRule] = {
    "same_animal": _same_animal,
    SAME_SEX: _same_sex,
    "species": _other_species,
    "line": _other_line,
}
"""The rules about a pair. An animal without a line is not held to one."""


def too_related(kinship: float, limit: float) -> Bar | None:
    """The reason against near kin; ``kin``.

    Half sibs of unrelated parents stand exactly at 0.125, and full sibs at 0.25 (Wright 1922).
    """
    if kinship <= limit + MARGIN:
        return None
    return Bar(KIN, f"kinship {kinship:.4g}, above the limit of {limit:g}")


def _kind(candidate: Candidate) -> str:
    sex = {FEMALE: "female", MALE: "male"}.get(candidate.sex)
    return " ".join(
        word for word in ("a", sex, candidate.species or (None if sex else "ray")) if word
    )


def _and(names: tuple[str, ...]) -> str:
    *head, tail = names
    return f"{', '.join(head)} and {tail}" if head else tail
