"""What is dangerous today: one kind of item, ranked, whatever subject it comes from."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from colony.planning.alarms.drift import Drift
from colony.planning.tanks.load import Occupant
from colony.refusals.base import AnotherAct, act

RANKS: Mapping[str, int] = {
    "water that harms": 1,
    "deaths close together": 1,
    "isolation broken": 2,
    "young with who could eat them": 2,
    "water outside its limits": 3,
    "heads are missing": 3,
    "signs of illness": 4,
    "several do badly in one water": 4,
    "water that drifts": 5,
    "pups left with adults": 4,
    "a birth overdue": 5,
}
"""How near the danger is, 1 the nearest; the order is common practice, no source."""

HARMFUL = frozenset(
    {"unionised_ammonia_mg_l", "nitrite_mg_l", "oxygen_mg_l", "temperature_c", "chlorine_mg_l"}
)
"""What harms within hours; the others harm within weeks. Common practice, no source."""

MANY_DEATHS, DEATH_DAYS = 2, 14
"""So many deaths in one water within so many days are no accident; common practice, no source."""

HEADCOUNT_DAYS = SIGN_DAYS = 365
"""An alarm stays until it is answered; what is older than so many days is history, not news.
Common practice, no source."""

MANY_POORLY = 2
"""So many that refuse food or stand still in one water are no accident; common practice, no source."""


@dataclass(frozen=True)
class Alarm:
    """One danger: how near it is, what, where, since when, by what it is known, and what to do.

    `where` is a system, a tank or an animal, as `kind` says.
    """

    what: str
    kind: str
    where: str
    since: date
    evidence: str
    remedy: AnotherAct

    @property
    def rank(self) -> int:
        """How near the danger is, 1 the nearest."""
        return RANKS[self.what]

    @property
    def sentence(self) -> str:
        """All of it in a line, but what to do."""
        return f"{self.where}: {self.what} since {self.since}: {self.evidence}"


@dataclass(frozen=True)
class BadValue:
    """A tested value outside its limit: the parameter, the day, and both in words."""

    parameter: str
    on: date
    words: str


@dataclass(frozen=True)
class TankToday:
    """A tank and who is in it: what could eat the young is seen from their widths.

    `young` are the tags of pups that should be in a nursery still, each with its dam's, who is
    no danger to it; `grown` those of the animals that are no pups any more.
    """

    code: str
    occupants: Sequence[Occupant]
    young: Mapping[str, str] = field(default_factory=dict)
    grown: Sequence[str] = ()


def ranked(alarms: Iterable[Alarm]) -> tuple[Alarm, ...]:
    """The nearest danger first, then the latest, then by place."""
    return tuple(
        sorted(alarms, key=lambda alarm: (alarm.rank, -alarm.since.toordinal(), alarm.where))
    )


def of_water(system: str, bad: Sequence[BadValue]) -> list[Alarm]:
    """What was tested outside the limits of who lives there: what harms soon apart from the rest."""
    found = []
    for what, harmful in (("water that harms", True), ("water outside its limits", False)):
        values = [value for value in bad if (value.parameter in HARMFUL) is harmful]
        if values:
            since = min(value.on for value in values)
            evidence = ", ".join(value.words for value in values)
            found.append(Alarm(what, "system", system, since, evidence, act("water plan")))
    return found


def of_deaths(system: str, deaths: Sequence[tuple[str, date]], today: date) -> list[Alarm]:
    """Several deaths in one water within two weeks."""
    recent = sorted(
        ((day, tag) for tag, day in deaths if 0 <= (today - day).days < DEATH_DAYS), reverse=True
    )
    if len(recent) < MANY_DEATHS:
        return []
    evidence = ", ".join(f"{tag} on {day}" for day, tag in recent)
    tag = recent[0][1]
    remedy = act("health death", tag)
    return [Alarm("deaths close together", "system", system, recent[-1][0], evidence, remedy)]


def of_tank(tank: TankToday, size_spread: float, today: date) -> list[Alarm]:
    """Young beside animals that could eat them, and pups that nobody took to a nursery.

    Who is more than `size_spread` times as wide could: the limit of size in a tank.
    """
    code = tank.code
    sized = [each for each in tank.occupants if each.disc_width_mm]
    eaten = [
        (large, small)
        for small in sized
        if small.tag in tank.young
        for large in sized
        if large.disc_width_mm > size_spread * small.disc_width_mm  # type: ignore[operator]
        and large.tag != tank.young[small.tag]
    ]
    if eaten:
        small = sorted({pair[1].tag for pair in eaten})
        large = sorted({pair[0].tag for pair in eaten})
        evidence = f"{', '.join(small)} with {', '.join(large)}"
        remedy = act("tank move", *small)
        return [Alarm("young with who could eat them", "tank", code, today, evidence, remedy)]
    others = [tag for tag in tank.grown if tag not in tank.young.values()]
    if tank.young and others:
        evidence = f"{', '.join(tank.young)} with {', '.join(others)}"
        remedy = act("tank move", *tank.young)
        return [Alarm("pups left with adults", "tank", code, today, evidence, remedy)]
    return []


def of_isolation(
    isolated: Sequence[str], code: str, shares: Sequence[str], today: date
) -> list[Alarm]:
    """Animals in isolation whose water open tanks with animals share."""
    if not isolated or not shares:
        return []
    evidence = f"{', '.join(isolated)} share water with {', '.join(shares)}"
    return [Alarm("isolation broken", "tank", code, today, evidence, act("isolation list"))]


def of_headcount(code: str, on: date, counted: int, booked: int) -> list[Alarm]:
    """Fewer were seen than the book has there."""
    if counted >= booked:
        return []
    evidence = f"{counted} counted, the book has {booked}"
    return [Alarm("heads are missing", "tank", code, on, evidence, act("round count", code))]


def of_signs(code: str, signs: Sequence[tuple[str, str, date]]) -> list[Alarm]:
    """Signs seen in one tank, each with its animal or the tank, and the day."""
    if not signs:
        return []
    evidence = ", ".join(f"{who} {sign}" for who, sign, _ in signs)
    since = min(day for _, _, day in signs)
    who = signs[-1][0]
    remedy = act("health look", tank=code) if who == code else act("health look", who)
    return [Alarm("signs of illness", "tank", code, since, evidence, remedy)]


def of_poorly(system: str, poorly: Sequence[tuple[str, str, date]]) -> list[Alarm]:
    """Several animals of one water that refuse food or stand still: tag, what, and since when."""
    if len({tag for tag, _, _ in poorly}) < MANY_POORLY:
        return []
    evidence = ", ".join(f"{tag} {what}" for tag, what, _ in sorted(poorly))
    since = min(day for _, _, day in poorly)
    remedy = act("water test", system)
    return [Alarm("several do badly in one water", "system", system, since, evidence, remedy)]


def of_drift(system: str, parameter: str, unit: str, found: Drift) -> Alarm:
    """A tested value that drifts, within its limits or not."""
    evidence = (
        f"{parameter} {found.way} from about {found.usual:.3g} to {found.now:.3g} {unit}".rstrip()
    )
    remedy = act("water test", system)
    return Alarm("water that drifts", "system", system, found.since, evidence, remedy)


def unanswered(alarms: Iterable[Alarm], answered: Collection[tuple[str, str, str]]) -> list[Alarm]:
    """Those that nobody answered as they are now: new evidence of an old danger is new.

    `answered` are what, where and the evidence of each.
    """
    return [a for a in alarms if (a.what, a.where, a.evidence) not in answered]


def of_birth(dam: str, tank: str | None, today: date) -> list[Alarm]:
    """A dam of whom no likely day is left."""
    evidence = f"no likely day is left; she is in {tank or 'no tank'}"
    return [Alarm("a birth overdue", "animal", dam, today, evidence, act("pairing check", dam))]
