"""What would be enough when the reserve is not: each relief alone, by the smallest amount."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from colony.planning.water.demand import Demand
from colony.planning.water.plan import fits
from colony.planning.water.reserve import Reserve


@dataclass(frozen=True)
class Relief:
    """Each relief that alone would be enough, in the least litres; None where it cannot be.

    `share_percent` is the largest whole percent of every change and drip that would fit,
    each rounded up to a litre; 0 where not even a litre of each would.
    """

    more_refill_l: int | None
    more_today_l: int | None
    larger_reserve_l: int | None
    share_percent: int


def relief(reserve: Reserve, demand: Demand, days: int = 7) -> Relief:
    """Search the least of each relief with which every day gets what it must have."""
    most = sum(need.litres for need in demand.changes) + demand.drip_l_a_day * days

    def enough(change: Callable[[int], Reserve]) -> int | None:
        return _least(lambda litres: fits(change(litres), demand, days), most)

    return Relief(
        more_refill_l=enough(lambda n: replace(reserve, refill_l=reserve.refill_l + n)),
        more_today_l=enough(lambda n: replace(reserve, level_l=reserve.level_l + n)),
        larger_reserve_l=enough(lambda n: replace(reserve, capacity_l=reserve.capacity_l + n)),
        share_percent=100
        - (_least(lambda cut: fits(reserve, _scaled(demand, 100 - cut), days), 100) or 0),
    )


def _least(is_enough: Callable[[int], bool], most: int) -> int | None:
    """The least number from 0 to `most` that is enough; more is never less enough."""
    if not is_enough(most):
        return None
    low, high = 0, most
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if is_enough(middle) else (middle + 1, high)
    return low


def _scaled(demand: Demand, percent: int) -> Demand:
    def part(litres: int) -> int:
        return -(-litres * percent // 100)

    return Demand(
        drip_l_a_day=part(demand.drip_l_a_day),
        urgent=tuple(
            replace(need, litres=part(need.litres), most_l_a_day=max(1, part(need.most_l_a_day)))
            for need in demand.urgent
        ),
        routine=tuple(replace(need, litres=part(need.litres)) for need in demand.routine),
    )
