"""Which males may have sired a litter, and how likely each is.

P(sire) is the sum, over the days on which she may have conceived, of P(conceived that day)
divided among the males that were with her on it: Bayes' rule with every male of a day alike.
P(conceived that day) follows from what was seen (a mating sign weighs more than days in one
tank) and from the length of gestation that it implies. Several sires in one litter are known
(2 of 6 litters, Torres et al. 2022); whether a litter is one of those, the record does not say.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from colony.planning.litters.company import Company, Span
from colony.planning.litters.conception import LAG_DAYS, UNSEEN_SHARE, Sign
from colony.planning.litters.due_window import gestation_chance
from colony.planning.litters.gestation import GestationPrior

LEAST_PERCENT = 1
"""A male whose share is under this many per cent is not proposed; common practice, no source."""


@dataclass(frozen=True)
class Conceived:
    """A day on which she may have conceived, its probability, and by whom if that was seen."""

    day: date
    weight: float
    male: int | None = None


@dataclass(frozen=True)
class Share:
    """A possible sire, None for somebody unknown, and how likely he is."""

    male: int | None
    share: float


def conceived_on(
    spans: Sequence[Span],
    signs: Sequence[Sign],
    gestation: GestationPrior,
    born: date,
) -> list[Conceived]:
    """Weigh the days on which a litter may have been conceived; the weights sum to 1.

    Parameters
    ----------
    spans
        The days on which she may have conceived at all.
    signs
        Mating signs; those that lie in the spans hold all but `UNSEEN_SHARE` between them.
    gestation
        Days of gestation of the species, or what the colony's own births make of them.
    born
        The day of birth.
    """
    days = sorted({day for first, last in spans for day in _days(first, last)})
    seen = [(sign, days_) for sign in signs if (days_ := _of_sign(sign, set(days)))]
    unseen = UNSEEN_SHARE if seen else 1.0
    chance = {day: gestation_chance(gestation, (born - day).days) for day in days}
    found = [
        Conceived(day, (1 - unseen) / len(seen) / len(of) * chance[day], sign.male)
        for sign, of in seen
        for day in of
    ]
    found += [Conceived(day, unseen / len(days) * chance[day]) for day in days]
    total = sum(each.weight for each in found)
    return [Conceived(c.day, c.weight / total, c.male) for c in found] if total else []


def sire_shares(
    conceived: Sequence[Conceived], companies: Sequence[Company], *, unknown: float
) -> tuple[Share, ...]:
    """Divide a litter among the males who may have sired it, the likeliest first.

    A day on which nobody was with her bore no litter, as far as the book knows. One male alone
    is the sire; of several each has his share, and somebody unknown has `unknown` (a male that
    nobody saw, sperm that she kept).

    Returns
    -------
    tuple of Share
        In whole per cents that sum to 1; empty where no male was with her on any such day.
    """
    chances: Mapping[int, float] = _chances(conceived, companies)
    total = sum(chances.values())
    if not total:
        return ()
    likely = {m: chance / total for m, chance in chances.items()}
    kept = {m: share for m, share in likely.items() if share * 100 >= LEAST_PERCENT}
    if len(kept) == 1:
        return (Share(next(iter(kept)), 1.0),)
    ordered: dict[int | None, float] = dict(
        sorted(kept.items(), key=lambda pair: (-pair[1], pair[0]))
    )
    scale = (1 - unknown) / sum(kept.values())
    parts: dict[int | None, float] = {m: share * scale for m, share in ordered.items()}
    if unknown:
        parts[None] = unknown
    return tuple(Share(male, percent / 100) for male, percent in _percents(parts).items())


def _chances(conceived: Sequence[Conceived], companies: Sequence[Company]) -> Mapping[int, float]:
    chances: dict[int, float] = defaultdict(float)
    there: dict[date, list[int]] = {}
    for each in conceived:
        if each.day not in there:
            there[each.day] = [c.male for c in companies if c.there(each.day)]
        males = [each.male] if each.male is not None else there[each.day]
        for male in males:
            chances[male] += each.weight / len(males)
    return chances


def _percents(parts: Mapping[int | None, float]) -> dict[int | None, int]:
    """Whole per cents that sum to 100: what is left over goes to the largest remainders."""
    whole = {male: max(int(share * 100), LEAST_PERCENT) for male, share in parts.items()}
    left = 100 - sum(whole.values())
    by_rest = sorted(parts, key=lambda male: int(parts[male] * 100) - parts[male] * 100)
    for male in by_rest[: max(left, 0)]:
        whole[male] += 1
    if left < 0:
        whole[max(whole, key=whole.__getitem__)] += left
    return whole


def _of_sign(sign: Sign, days: set[date]) -> list[date]:
    """The days on which the mating that left a sign may have been, of those that count."""
    return [
        day
        for day in _days(sign.day - timedelta(days=LAG_DAYS[sign.kind]), sign.day)
        if day in days
    ]


def _days(first: date, last: date) -> list[date]:
    return [first + timedelta(days=n) for n in range((last - first).days + 1)]
