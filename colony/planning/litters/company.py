"""Who was with a dam, and on which days: by tanks they shared, and by pairings.

A pairing of two that swim apart is only planned: its days count from when they are together.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.litters.conception import ENDINGS, Evidence
from colony.planning.litters.gestation import GestationPrior

Span = tuple[date, date]
"""A first and a last day, both within."""

Stay = tuple[str, date, date | None]
"""A tank, the first day in it, and the first day elsewhere."""


@dataclass(frozen=True)
class Together:
    """Days on which a male was with a dam, and how: `where` is "in N1" or "paired"."""

    where: str
    first: date
    last: date

    @property
    def span(self) -> Span:
        """Its first and its last day."""
        return self.first, self.last


@dataclass(frozen=True)
class Company:
    """One male, and every stay of his with a dam, in order."""

    male: int
    stays: tuple[Together, ...]

    def within(self, spans: Sequence[Span]) -> "Company":
        """The part of it that lies in some spans of days."""
        cut = (
            Together(stay.where, *days)
            for stay in self.stays
            for days in shared_days(stay.span, spans)
        )
        return Company(self.male, tuple(cut))

    def there(self, day: date) -> bool:
        """Whether he was with her on a day."""
        return any(stay.first <= day <= stay.last for stay in self.stays)


def together(
    dam: Sequence[Stay],
    male: Sequence[Stay],
    paired: Iterable[tuple[date, date | None]],
    *,
    grown_from: date,
    last: date,
) -> tuple[Together, ...]:
    """Find when a male was with a dam.

    Parameters
    ----------
    dam, male
        The tanks that each was in. Who came on the day on which the other left did not meet it.
    paired
        First day of each pairing, and its last; None runs still.
    grown_from
        The day on which both were grown: no day in one tank counts before it.
    last
        The last day that counts.

    Returns
    -------
    tuple of Together
        Days in one tank, and days of a pairing but for those on which the book has the two in
        two tanks; in order of the first day.
    """
    counted, ever = [(grown_from, last)], [(date.min, last)]
    shared = [
        Together(f"in {tank}", *days)
        for tank, entered, left in dam
        for other, came, gone in male
        if other == tank
        for days in _meet((entered, left), (came, gone), counted)
    ]
    apart = [
        days
        for tank, entered, left in dam
        for other, came, gone in male
        if other != tank
        for days in _meet((entered, left), (came, gone), ever)
    ]
    known = [*(stay.span for stay in shared), *apart]
    said = [
        Together("paired", *days)
        for started, ended in paired
        for span in shared_days((started, ended or date.max), ever)
        for days in without(span, known)
    ]
    return tuple(sorted((*shared, *said), key=lambda stay: stay.span))


def _meet(
    own: tuple[date, date | None], other: tuple[date, date | None], within: Sequence[Span]
) -> list[Span]:
    first = max(own[0], other[0])
    left = min((day for day in (own[1], other[1]) if day), default=None)
    last = left - timedelta(days=1) if left else date.max
    return shared_days((first, last), within) if first <= last else []


def without(span: Span, taken: Iterable[Span]) -> list[Span]:
    """What is left of a span of days when others are cut out of it."""
    left = [span]
    for first, last in taken:
        pieces = []
        for start, end in left:
            if last < start or first > end:
                pieces.append((start, end))
                continue
            if start < first:
                pieces.append((start, first - timedelta(days=1)))
            if end > last:
                pieces.append((last + timedelta(days=1), end))
        left = pieces
    return left


@dataclass(frozen=True)
class Maturing:
    """What tells from when an animal was grown.

    `born` is the earliest day that it may have been born. `widths` are its disc widths in mm
    by day, in order. `seen_on` is the first evidence of its own: claspers, or a mating that
    bore young.
    """

    born: date | None
    mature_age_days: int
    widths: tuple[tuple[date, float], ...]
    mature_width_mm: float
    seen_on: date | None = None


def grown_from(animal: Maturing) -> date | None:
    """The first day on which nothing says that it was too young; None if there is none yet.

    Age or width alone speak for it, so that one whom nobody measured since it was a pup is not
    passed over. Of one whose age nobody knows only a small first width says that it was young.
    """
    wide = [day for day, width_mm in animal.widths if width_mm >= animal.mature_width_mm]
    if animal.born is None and (not animal.widths or animal.widths[0][0] in wide):
        return date.min
    days = [*wide[:1], *([animal.seen_on] if animal.seen_on else [])]
    if animal.born is not None:
        days.append(animal.born + timedelta(days=animal.mature_age_days))
    return min(days, default=None)


def conception_window(evidence: Evidence, prior: GestationPrior, born: date) -> Span:
    """First and last day on which she may have conceived a litter that was born on a day.

    The species' range of gestation before the birth, after her last birth or lost pregnancy,
    and no later than she was found gravid. A finding that the range contradicts does not count.
    """
    first = born - timedelta(days=round(prior.high_days))
    last = born - timedelta(days=round(prior.low_days))
    if evidence.last_birth is not None and evidence.last_birth < born:
        first = max(first, evidence.last_birth)
        last = max(first, last)
    for check in sorted(evidence.checks, key=lambda check: check.day):
        if check.finding in ENDINGS and first <= check.day <= last:
            first = check.day
    gravid = [c.day for c in evidence.checks if c.finding == "gravid" and first <= c.day <= last]
    return first, min([last, *gravid])


def shared_days(own: Span, spans: Iterable[Span]) -> list[Span]:
    """The days of a span that lie in others."""
    shared = [(max(own[0], first), min(own[1], last)) for first, last in spans]
    return [span for span in shared if span[0] <= span[1]]


def whole(spans: Sequence[Span]) -> Span:
    """From the first day of some spans to the last."""
    return min(first for first, _ in spans), max(last for _, last in spans)
