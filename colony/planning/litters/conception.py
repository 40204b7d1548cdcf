"""On which days a dam may have conceived, by what was seen of her.

"Nothing seen" is recorded and never counted: a pregnant ray may show nothing.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import repeat
from typing import Literal

SignKind = Literal["bites", "copulation"]
State = Literal["possible", "expected", "confirmed"]
Finding = Literal["gravid", "nothing seen", "false alarm", "aborted"]

LAG_DAYS: dict[SignKind, int] = {"bites": 3, "copulation": 0}
"""How long before it was seen the mating may have been; common practice, no source."""

UNSEEN_SHARE = 0.1
"""Chance that she conceived in a mating nobody saw; common practice, no source."""

ENDINGS: frozenset[Finding] = frozenset({"false alarm", "aborted"})
"""The findings that end a pregnancy; a birth is the other end."""


@dataclass(frozen=True)
class Sign:
    """A mating sign: bite marks on the disc edge, or copulation seen; with whom, if known."""

    day: date
    kind: SignKind
    male: int | None = None


@dataclass(frozen=True)
class Check:
    """What a pregnancy check found on a day."""

    day: date
    finding: Finding


@dataclass(frozen=True)
class Evidence:
    """Everything that was seen of one dam.

    `kept` are the days on which a grown male was with her, first and last (None: still).
    `paired` says that it was meant. `last_birth` ends what came before.
    """

    dam: str
    signs: tuple[Sign, ...] = ()
    kept: tuple[tuple[date, date | None], ...] = ()
    paired: bool = False
    checks: tuple[Check, ...] = ()
    last_birth: date | None = None


@dataclass(frozen=True)
class ConceptionDays:
    """Ordinal days with weights: those that were seen, and any other day with a male."""

    likely: tuple[tuple[int, float], ...]
    unseen: tuple[tuple[int, float], ...]
    state: State

    @property
    def first(self) -> date:
        """The first day that what was seen allows."""
        return date.fromordinal(self.likely[0][0])

    @property
    def last(self) -> date:
        """The last day that what was seen allows."""
        return date.fromordinal(self.likely[-1][0])

    def weighed(self) -> tuple[tuple[int, float], ...]:
        """All days, the unseen ones by their small share."""
        if not self.unseen:
            return self.likely
        seen = tuple((day, weight * (1 - UNSEEN_SHARE)) for day, weight in self.likely)
        return seen + tuple((day, weight * UNSEEN_SHARE) for day, weight in self.unseen)


def conception_days(
    evidence: Evidence, *, longest_days: float, today: date
) -> ConceptionDays | None:
    """Weigh the days on which she may have conceived.

    Parameters
    ----------
    evidence
        Signs, males and checks of one dam.
    longest_days
        The longest gestation of the species: nothing older than twice this is weighed.
    today
        Nothing after this day counts.

    Returns
    -------
    ConceptionDays or None
        None when nothing speaks for a pregnancy after its last end.
    """
    seen, days, state = _seen(evidence, longest_days, today)
    if seen:
        return ConceptionDays(_weighed(seen), _even(days), state)
    return ConceptionDays(_even(days), (), state) if days else None


def conception_span(
    evidence: Evidence, *, longest_days: float, today: date
) -> tuple[date, date] | None:
    """First and last of the days that `conception_days` weighs as likely, found without weights."""
    seen, days, _ = _seen(evidence, longest_days, today)
    spans = seen or days
    if not spans:
        return None
    first, last = min(span[0] for span in spans), max(span[-1] for span in spans)
    return date.fromordinal(first), date.fromordinal(last)


def conception_basis(evidence: Evidence, seen: ConceptionDays) -> str:
    """Say in a few words what the days of conception rest on."""
    days = f"{seen.first}" if seen.first == seen.last else f"{seen.first} to {seen.last}"
    kinds = sorted({sign.kind for sign in evidence.signs if seen.first <= sign.day})
    if seen.unseen or (kinds and not evidence.kept):
        return f"{' and '.join(kinds)} seen, conceived {days}"
    return f"kept with a male, conceived {days}" if evidence.kept else f"gravid by {days}"


def _seen(
    evidence: Evidence, longest_days: float, today: date
) -> tuple[list[range], list[range], State]:
    """Days of each sign, days that she was within reach of a male, and what that makes her."""
    opened = _last_end(evidence, today)
    gravid = [c.day for c in evidence.checks if c.finding == "gravid" and _since(c.day, opened)]
    closes = min([today, *gravid])
    days = _kept_days(evidence, opened, closes, longest_days)
    seen = [
        _days_of(sign, opened)
        for sign in evidence.signs
        if sign.day <= closes and _since(sign.day, opened)
    ]
    if gravid and not seen and not days:
        days = [range(min(gravid).toordinal() - int(longest_days), min(gravid).toordinal() + 1)]
    return seen, days, "confirmed" if gravid else "expected" if seen else "possible"


def _last_end(evidence: Evidence, today: date) -> date | None:
    ends = [c.day for c in evidence.checks if c.finding in ENDINGS and c.day <= today]
    if evidence.last_birth is not None and evidence.last_birth <= today:
        ends.append(evidence.last_birth)
    return max(ends, default=None)


def _since(day: date, opened: date | None) -> bool:
    return opened is None or day >= opened


def _kept_days(
    evidence: Evidence, opened: date | None, closes: date, longest_days: float
) -> list[range]:
    """The days with a male since the last end, none twice, and none too long before."""
    end, spans = closes.toordinal(), []
    free = max((opened or date.min).toordinal(), 1)
    for first, last in sorted(evidence.kept, key=lambda span: span[0]):
        start, stop = max(first.toordinal(), free), min((last or closes).toordinal(), end)
        if start <= stop:
            spans.append(range(start, stop + 1))
            free = stop + 1
    if not spans:
        return []
    oldest = spans[-1][-1] - int(2 * longest_days)
    return [range(max(span[0], oldest), span[-1] + 1) for span in spans if span[-1] >= oldest]


def _days_of(sign: Sign, opened: date | None) -> range:
    """The days on which the mating that left this sign may have been."""
    seen = sign.day.toordinal()
    first = seen - LAG_DAYS[sign.kind]
    return range(max(first, opened.toordinal()) if opened else first, seen + 1)


def _weighed(seen: Sequence[range]) -> tuple[tuple[int, float], ...]:
    """Each sign weighs as much as every other, and each of its days the same."""
    weights: dict[int, float] = {}
    for days in seen:
        for day in days:
            weights[day] = weights.get(day, 0.0) + 1 / len(days)
    return tuple((day, weights[day] / len(seen)) for day in sorted(weights))


def _even(spans: Sequence[range]) -> tuple[tuple[int, float], ...]:
    days = [day for span in spans for day in span]
    return tuple(zip(days, repeat(1 / max(len(days), 1))))
