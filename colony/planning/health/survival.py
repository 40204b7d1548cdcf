"""Survival of pups by age, with intervals that hold for small numbers.

By Kaplan and Meier where every death is known to the day; by Turnbull where one lies between two.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import prod

from scipy.stats import CensoredData, beta, ecdf

from colony.planning.health.turnbull import alive_at

AT_DAYS = (7, 30, 90, 180)
"""Ages at which survival is given."""


@dataclass(frozen=True)
class Lived:
    """Days that one pup was followed, and whether it died then (else it left, or lives).

    One that died unseen was found dead at `days`, and last seen alive at `seen_days`.
    """

    days: int
    died: bool
    seen_days: int | None = None

    @property
    def alive_to(self) -> int:
        """The last day of which it is known that it lived; the day before a death that was seen."""
        if not self.died:
            return self.days
        return self.days - 1 if self.seen_days is None else min(self.seen_days, self.days - 1)


@dataclass(frozen=True)
class SurvivalAt:
    """Share alive at an age, its confidence interval, and how many were still followed.

    `share` is None past the age to which anybody was followed.
    """

    days: int
    share: float | None
    low: float
    high: float
    followed: int


def survival(
    lives: Iterable[Lived], at_days: Sequence[int] = AT_DAYS, level: float = 0.95
) -> tuple[SurvivalAt, ...]:
    """Estimate the share that lives to each age.

    Returns
    -------
    tuple of SurvivalAt
        The product-limit estimate, and the interval of the beta product confidence procedure
        by the method of moments: without censoring it is Clopper and Pearson's, and it stays
        honest where nobody, or everybody, died. Deaths between two days count as early as can
        be for its lower bound, and as late as can be for the upper one.

    Raises
    ------
    ValueError
        There are no lives.

    References
    ----------
    Kaplan & Meier 1958, Nonparametric estimation from incomplete observations, J. Am. Stat.
    Assoc. 53:457-481. Fay, Brittain & Proschan 2013, Pointwise confidence intervals for a
    survival distribution with small samples or heavy censoring, Biostatistics 14:723-736.
    Turnbull 1976, The empirical distribution function with arbitrarily grouped, censored and
    truncated data, J. R. Stat. Soc. B 38:290-295.
    """
    lives = tuple(lives)
    if not lives:
        raise ValueError("nobody was followed")
    shares = _shares(lives, at_days)
    return tuple(
        SurvivalAt(
            days=day,
            share=share if _is_known(lives, day) else None,
            **_interval(lives, day, 1 - level),
            followed=_followed(lives, day),
        )
        for day, share in zip(at_days, shares, strict=True)
    )


def _shares(lives: Sequence[Lived], at_days: Sequence[int]) -> Sequence[float]:
    if any(life.died and life.alive_to < life.days - 1 for life in lives):
        return alive_at([(x.alive_to, x.days if x.died else None) for x in lives], at_days)
    censored = CensoredData.right_censored(
        [life.days for life in lives], [not life.died for life in lives]
    )
    return [float(share) for share in ecdf(censored).sf.evaluate(list(at_days))]


def _is_known(lives: Sequence[Lived], day: int) -> bool:
    """Whether the estimate reaches this age: somebody is followed past it, or all have died."""
    last = max(lives, key=lambda life: (life.days, not life.died))
    return last.days >= day or last.died


def _followed(lives: Sequence[Lived], day: int) -> int:
    return sum(life.days > day for life in lives)


def _interval(lives: Sequence[Lived], day: int, alpha: float) -> dict[str, float]:
    """Both bounds: products of betas, one for each age at which somebody died by this day.

    The upper bound is a quantile of the product; the lower one of the product with one more
    beta, for the death that may come next among those still followed.
    """
    early = [Lived(x.alive_to + 1, died=True) if x.died else x for x in lives]
    early_betas, late_betas = _betas(early, day), _betas(lives, day)
    after = _followed(early, day)
    low = _quantile(alpha / 2, [*early_betas, (after, 1)]) if after else 0.0
    return {"low": low, "high": _quantile(1 - alpha / 2, late_betas) if late_betas else 1.0}


def _betas(lives: Sequence[Lived], day: int) -> list[tuple[int, int]]:
    died = Counter(life.days for life in lives if life.died and life.days <= day)
    return [
        (sum(life.days >= age for life in lives) - deaths + 1, deaths)
        for age, deaths in sorted(died.items())
    ]


def _quantile(share: float, betas: Sequence[tuple[int, int]]) -> float:
    """Quantile of a product of independent betas, taken as the beta of the same two moments."""
    mean = prod(a / (a + b) for a, b in betas)
    square = prod(a * (a + 1) / ((a + b) * (a + b + 1)) for a, b in betas)
    size = (mean - square) / (square - mean**2)
    return float(beta.ppf(share, mean * size, (1 - mean) * size))
