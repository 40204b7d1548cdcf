"""Which other males may have sired a litter: grown, and with the dam when she conceived.

Nothing here weighs how likely each is; it only finds whom a record must not pass over.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.litters.conception import ENDINGS, Evidence
from colony.planning.litters.gestation import GestationPrior

Span = tuple[date, date]
"""A first and a last day, both within."""


@dataclass(frozen=True)
class Male:
    """What tells whether a male was grown; `age_days` is the most that he may have been.

    `width_mm` is the last disc width until that day. `mature_seen` is evidence of its own:
    claspers, or a litter that he sired.
    """

    age_days: int | None
    mature_age_days: int
    width_mm: float | None
    mature_width_mm: float
    mature_seen: bool = False


def may_be_grown(male: Male) -> bool:
    """Whether nothing says that he was too young: age or width alone speak for him.

    So a male that nobody measured since he was a pup is not passed over.
    """
    if male.mature_seen or (male.age_days is None and male.width_mm is None):
        return True
    old = male.age_days is not None and male.age_days >= male.mature_age_days
    return old or (male.width_mm is not None and male.width_mm >= male.mature_width_mm)


def conception_window(evidence: Evidence, prior: GestationPrior, born: date) -> Span:
    """First and last day on which she may have conceived a litter that was born on a day.

    The species' range of gestation before the birth, after her last birth or lost pregnancy,
    and no later than she was found gravid. A finding that the range contradicts does not count.
    """
    first = born - timedelta(days=round(prior.high_days))
    last = born - timedelta(days=round(prior.low_days))
    if evidence.last_birth is not None:
        first = max(first, evidence.last_birth)
        last = max(first, last)
    for check in sorted(evidence.checks, key=lambda check: check.day):
        if check.finding in ENDINGS and first <= check.day <= last:
            first = check.day
    gravid = [c.day for c in evidence.checks if c.finding == "gravid" and first <= c.day <= last]
    return first, min([last, *gravid])


def shared_days(start: date, end: date | None, spans: Iterable[Span]) -> list[Span]:
    """The days of a stay, its `end` the first day elsewhere, that lie in spans of days."""
    until = end - timedelta(days=1) if end else date.max
    shared = [(max(start, first), min(until, last)) for first, last in spans]
    return [span for span in shared if span[0] <= span[1]]


def whole(spans: Sequence[Span]) -> Span:
    """From the first day of some spans to the last."""
    return min(first for first, _ in spans), max(last for _, last in spans)
