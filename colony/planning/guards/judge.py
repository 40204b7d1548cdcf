"""Judge an act by the table of guards: what stands against it, and how much."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.guards.table import NEVER, PAIR, REFUSE, WARN, weight
from colony.planning.pairings.eligibility import (
    Bar,
    Candidate,
    too_related,
    why_not,
    why_not_together,
)

CHILD_SHARE = 0.4
"""Below this share of the age of maturity nobody bears; common practice, no source."""


@dataclass(frozen=True)
class GuardLimits:
    """The settings that guards ask for; common practice, no source.

    `kinship` is the greatest kinship of two that are paired: half sibs of unrelated parents
    stand exactly at 0.125. `near_term_days` are the days before a likely birth in which a dam
    is left in peace; `isolation_days` how long an arrival stays in water of its own.
    """

    kinship: float = 0.125
    near_term_days: int = 14
    isolation_days: int = 30


DEFAULT_LIMITS = GuardLimits()


@dataclass(frozen=True)
class Guarded:
    """An animal as the guards see it.

    `arrived` is the day that it came from outside, None where it was born here. Its facts of
    breeding are those of a `Candidate`. `reserved_for` is who gets it, `kept_for` how that is
    told where no name may stand; `waits_on` what a pup that is sold still lacks.
    """

    candidate: Candidate
    reserved_for: str | None = None
    kept_for: str | None = None
    waits_on: tuple[str, ...] = ()
    held_back: bool = False
    arrived: date | None = None


@dataclass(frozen=True)
class Target:
    """The tank that an animal goes to: its code, and whether its water is isolated."""

    code: str
    isolates: bool = False
    is_nursery: bool = False


@dataclass(frozen=True)
class Kin:
    """Kinship of two: expected, at its greatest over doubtful sires, and whether it is known.

    `unknown` names those of the two of whom a parent is not on record.
    """

    expected: float
    greatest: float
    unknown: tuple[str, ...] = ()


@dataclass(frozen=True)
class Objection:
    """What stands against an act: the guard, against whom, why, and what the table says to it."""

    guard: str
    tags: tuple[str, ...]
    why: str
    weight: str
    beside: str = ""

    @property
    def sentence(self) -> str:
        """Who, and why, in half a sentence, as the breeder reads it."""
        return f"{self.kept}{self.beside}"

    @property
    def kept(self) -> str:
        """The same as the book keeps it: without what stands `beside`, such as a name."""
        return f"{' and '.join(self.tags)}: {self.why}"


@dataclass(frozen=True)
class Proposal:
    """What is to be done with animals on a day.

    `to` is the tank that they go to, where they are moved or brought in; `whom` who gets them,
    where they are sold or given away.
    """

    act: str
    on: date
    to: Target | None = None
    whom: str | None = None


def judge_alone(
    proposal: Proposal, animal: Guarded, limits: GuardLimits = DEFAULT_LIMITS
) -> tuple[Objection, ...]:
    """What stands against an act with one animal, whatever it is done with beside it."""
    bars = (*why_not(animal.candidate, proposal.on), *_own(proposal, animal, limits))
    return _weighed(proposal.act, bars, (animal.candidate.tag,))


def judge_pair(
    dam: Guarded, sire: Guarded, kin: Kin, limits: GuardLimits = DEFAULT_LIMITS
) -> tuple[Objection, ...]:
    """What stands against a dam and a sire together, whatever each is by itself."""
    tags = (dam.candidate.tag, sire.candidate.tag)
    bars = (*why_not_together(dam.candidate, sire.candidate), *_related(kin, limits))
    return _weighed(PAIR, bars, tags)


def refused(objections: tuple[Objection, ...]) -> tuple[Objection, ...]:
    """Those that bar the act, unless they are overruled."""
    return tuple(each for each in objections if each.weight in {NEVER, REFUSE})


def warned(objections: tuple[Objection, ...]) -> tuple[Objection, ...]:
    """Those that are said, and let the act be."""
    return tuple(each for each in objections if each.weight == WARN)


def _weighed(act: str, bars: tuple[Bar, ...], tags: tuple[str, ...]) -> tuple[Objection, ...]:
    return tuple(
        Objection(bar.name, tags, bar.text, found, bar.beside)
        for bar in bars
        if bar.name != "paired" and (found := weight(bar.name, act)) is not None
    )


def _own(proposal: Proposal, animal: Guarded, limits: GuardLimits) -> Iterator[Bar]:
    """The guards that no rule of pairing knows."""
    due, to = animal.candidate.due, proposal.to
    if due is not None and not (to and to.is_nursery):
        days = (due - proposal.on).days
        if days <= limits.near_term_days:
            yield Bar("near_term", f"due about {due}: leave her in peace, or part her to a nursery")
    age, mature = animal.candidate.age_days, animal.candidate.mature_age_days
    if age is not None and mature and age < CHILD_SHARE * mature:
        kind = animal.candidate.species or "ray"
        yield Bar("child", f"{age} days old; a {kind} is mature at {mature}: check the tag")
    if animal.reserved_for and (proposal.whom or "").casefold() != animal.reserved_for.casefold():
        kept = animal.kept_for or animal.reserved_for
        who = f" ({animal.reserved_for})" if kept != animal.reserved_for else ""
        yield Bar("reserved", f"reserved for {kept}", who)
    if animal.waits_on:
        yield Bar("unready", f"waits on {', '.join(animal.waits_on)}")
    if animal.held_back:
        yield Bar("held_back", "kept as a future breeder")
    if to is not None and not to.isolates and animal.arrived is not None:
        free = animal.arrived + timedelta(days=limits.isolation_days)
        if free > proposal.on:
            yield Bar(
                "arrival",
                f"came from outside on {animal.arrived}: isolated until {free}, and {to.code} "
                "shares its water",
            )


def _related(kin: Kin, limits: GuardLimits) -> Iterator[Bar]:
    if near := too_related(kin.expected, limits.kinship):
        yield near
    elif at_worst := too_related(kin.greatest, limits.kinship):
        yield Bar("kin_at_worst", f"if a doubtful sire is theirs, {at_worst.text}")
    if kin.unknown and kin.expected == 0:
        yield Bar(
            "kin_unknown",
            f"no kin is known, which is not unrelated: parents of {' and '.join(kin.unknown)} are "
            "not on record",
        )
