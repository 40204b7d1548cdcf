"""Income and expenses by month, and by species where that is known."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

IN, OUT = "in", "out"


@dataclass(frozen=True)
class Flow:
    """Money that came in or went out on a day, in minor units; a refund comes in as less."""

    on: date
    way: str
    kind: str
    minor: int
    currency: str
    species: str | None = None


@dataclass(frozen=True)
class MonthOfMoney:
    """One month of one currency, in minor units; `by_kind` and `by_species` tell it apart."""

    month: str
    currency: str
    income: int
    expenses: int
    by_kind: dict[str, int]
    by_species: dict[str, int]

    @property
    def left(self) -> int:
        """What is left of it."""
        return self.income - self.expenses


def by_month(flows: Iterable[Flow]) -> list[MonthOfMoney]:
    """Add money up by month, the first month first."""
    months: dict[tuple[str, str], list[Flow]] = defaultdict(list)
    for flow in flows:
        months[f"{flow.on:%Y-%m}", flow.currency].append(flow)
    return [_month(*key, months[key]) for key in sorted(months)]


def split(minor: int, shares: dict[str, int]) -> dict[str, int]:
    """Part an amount in proportion to shares, to the last cent: largest remainders first."""
    total = sum(shares.values())
    if not total:
        return {}
    exact = {name: minor * share / total for name, share in shares.items()}
    whole = {name: int(value // 1) for name, value in exact.items()}
    left = minor - sum(whole.values())
    for name in sorted(exact, key=lambda n: (whole[n] - exact[n], n))[:left]:
        whole[name] += 1
    return whole


def _month(month: str, currency: str, flows: list[Flow]) -> MonthOfMoney:
    by_kind: dict[str, int] = defaultdict(int)
    by_species: dict[str, int] = defaultdict(int)
    for flow in flows:
        signed = flow.minor if flow.way == IN else -flow.minor
        by_kind[flow.kind] += signed
        by_species[flow.species or "not said"] += signed
    return MonthOfMoney(
        month,
        currency,
        sum(flow.minor for flow in flows if flow.way == IN),
        sum(flow.minor for flow in flows if flow.way == OUT),
        dict(by_kind),
        dict(by_species),
    )
