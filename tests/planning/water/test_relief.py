"""The least of each relief that is enough."""

from hypothesis import given, settings
from hypothesis import strategies as st
from plain_water import any_demands, big_reserves, demand, routine

from colony.planning.water.demand import Demand
from colony.planning.water.plan import fits
from colony.planning.water.relief import relief
from colony.planning.water.reserve import Reserve


def test_each_relief_is_named_by_its_least() -> None:
    """By hand: 300 L are wanted today and 200 L are there, so 100 L more today, or 66 %."""
    short = relief(Reserve(200, 100, 200), demand(routine("S1", 300, 0, 0)))
    assert (short.more_refill_l, short.more_today_l, short.larger_reserve_l) == (None, 100, None)
    assert short.share_percent == 66
    later = relief(Reserve(200, 100, 200), demand(routine("S1", 500, 0, 2)))
    assert (later.more_refill_l, later.more_today_l) == (50, 100)


def test_a_larger_reserve_is_enough_when_the_nights_bring_enough() -> None:
    """Full at 100 L, 100 L a night, 250 L wanted on the third day: 150 L more hold them."""
    third_day = demand(routine("S1", 250, 2, 2))
    assert relief(Reserve(100, 100, 100), third_day).larger_reserve_l == 150


litres = st.integers(1, 6)


@settings(max_examples=40, deadline=None)
@given(big_reserves, any_demands)
def test_every_relief_is_enough_and_one_litre_less_is_not(reserve: Reserve, week: Demand) -> None:
    """The relief makes the week fit; with one litre less of it the week does not."""
    found = relief(reserve, week)
    for field, more in (
        ("refill_l", found.more_refill_l),
        ("level_l", found.more_today_l),
        ("capacity_l", found.larger_reserve_l),
    ):
        if more is None:
            continue
        facts = vars(reserve)
        assert fits(Reserve(**facts | {field: facts[field] + more}), week)
        if more:
            assert not fits(Reserve(**facts | {field: facts[field] + more - 1}), week)
    assert (found.share_percent == 100) == fits(reserve, week)
