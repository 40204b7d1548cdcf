"""The gates of readiness: what a pup must have done, and the date each of them opens.

Every default is common practice, no source; every number is a setting of the breeder.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.pups.feeding import FoodOffered, fed_since
from colony.planning.pups.growth import Curve, GrowthPrior, Width, first_curve, reach


@dataclass(frozen=True)
class ReadyRules:
    """What a pup of a species must have done before it is offered."""

    min_age_days: int = 42
    min_width_mm: float = 120
    min_foods: int = 2
    feeding_days: int = 14


@dataclass(frozen=True)
class PupFacts:
    """What the gates need to know of one pup.

    `widths` are the trusted ones and `doubtful` the others (`growth_flags.trusted_widths`).
    `held_until` is the last day of a health hold whose end is known, `isolated_until` the first day out of
    isolation. `curve` is what the colony's widths say of the pup; without it the species
    prior is started from the pup's last width.
    """

    tag: str
    species: str
    sex: str
    born: date | None
    widths: tuple[Width, ...] = ()
    doubtful: tuple[Width, ...] = ()
    feedings: tuple[FoodOffered, ...] = ()
    held: bool = False
    held_until: date | None = None
    held_back: bool = False
    reserved: bool = False
    reserved_for: str = ""
    isolated_until: date | None = None
    prior: GrowthPrior | None = None
    curve: Curve | None = None
    litter: str = ""
    tank: str = ""
    line: str | None = None

    @property
    def disc_width_mm(self) -> float | None:
        """The last measured width."""
        return max(self.widths, key=lambda w: w.day).width_mm if self.widths else None

    @property
    def widest_mm(self) -> float:
        """The greatest measured width: a later, smaller one does not close a gate again."""
        return max((w.width_mm for w in self.widths), default=0.0)


@dataclass(frozen=True)
class Opening:
    """Whether a gate is open, and when it opens (None: nobody can say)."""

    is_open: bool
    low: date | None = None
    likely: date | None = None
    high: date | None = None


GateTest = Callable[[PupFacts, ReadyRules, date], Opening]


@dataclass(frozen=True)
class Gate:
    """One condition of readiness, by its name.

    `asks` is what holds once it is open, `lacks` what a pup waits on until then.
    """

    name: str
    asks: str
    lacks: str
    opening: GateTest


def _age(pup: PupFacts, rules: ReadyRules, today: date) -> Opening:
    if rules.min_age_days <= 0:
        return _open(today)
    if pup.born is None:
        return Opening(is_open=False)
    return _on(pup.born + timedelta(days=rules.min_age_days), today)


def _width(pup: PupFacts, rules: ReadyRules, today: date) -> Opening:
    if pup.widest_mm >= rules.min_width_mm:
        return _open(today)
    curve = pup.curve
    if curve is None and pup.prior is not None:
        curve = first_curve(pup.widths, pup.prior, born=pup.born)
    when = reach(curve, rules.min_width_mm) if curve else None
    if when is None:
        return Opening(is_open=False)
    return Opening(False, *(_not_before(day, today) for day in (when.low, when.likely, when.high)))


def _feeding(pup: PupFacts, rules: ReadyRules, today: date) -> Opening:
    if rules.min_foods <= 0:
        return _open(today)
    since = fed_since(pup.feedings, rules.min_foods, today)
    return _on(
        (since or today) + timedelta(days=rules.feeding_days), today, certain=since is not None
    )


def _no_hold(pup: PupFacts, _rules: ReadyRules, today: date) -> Opening:
    if not pup.held:
        return _open(today)
    free = pup.held_until + timedelta(days=1) if pup.held_until else None
    return Opening(False, free, free, free)


def _sale_free(name: str) -> GateTest:
    def opening(pup: PupFacts, _rules: ReadyRules, today: date) -> Opening:
        return Opening(is_open=False) if getattr(pup, name) else _open(today)

    return opening


def _sexed(pup: PupFacts, _rules: ReadyRules, today: date) -> Opening:
    return Opening(pup.sex in {"F", "M"}, today, today, today)


def _isolation(pup: PupFacts, _rules: ReadyRules, today: date) -> Opening:
    return _on(pup.isolated_until or today, today)


GATES: Sequence[Gate] = (
    Gate("age", "old enough", "age", _age),
    Gate("width", "measured wide enough", "width", _width),
    Gate("feeding", "takes enough foods for long enough", "feeding", _feeding),
    Gate("no_hold", "no health hold", "a health hold", _no_hold),
    Gate("not_held_back", "not kept as a future breeder", "kept to breed", _sale_free("held_back")),
    Gate("not_reserved", "not reserved", "reserved", _sale_free("reserved")),
    Gate("sexed", "sex seen (claspers)", "its sex", _sexed),
    Gate("isolation_over", "out of isolation", "isolation", _isolation),
)
"""All gates, in the order in which they are shown."""


def _open(today: date) -> Opening:
    return Opening(True, today, today, today)


def _on(day: date, today: date, *, certain: bool = True) -> Opening:
    later = _not_before(day, today)
    return Opening(certain and day <= today, later, later, later)


def _not_before(day: date | None, today: date) -> date | None:
    return None if day is None else max(day, today)
