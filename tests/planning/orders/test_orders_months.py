"""Money by month, to the last cent."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as some

from colony.planning.orders.months import IN, OUT, Flow, by_month, split


def test_months_add_up_what_came_in_and_went_out() -> None:
    """By kind and species; a refund is less of what came in; two currencies are two months."""
    flows = [
        Flow(date(2026, 3, 1), IN, "payment", 500, "EUR", "motoro"),
        Flow(date(2026, 3, 31), OUT, "food", 120, "EUR"),
        Flow(date(2026, 3, 2), IN, "refund", -50, "EUR", "motoro"),
        Flow(date(2026, 4, 1), OUT, "power", 80, "EUR"),
        Flow(date(2026, 3, 1), IN, "payment", 9, "USD"),
    ]
    march, dollars, april = by_month(flows)
    assert (march.month, march.income, march.expenses, march.left) == ("2026-03", 450, 120, 330)
    assert march.by_kind == {"payment": 500, "food": -120, "refund": -50}
    assert march.by_species == {"motoro": 450, "not said": -120}
    assert (dollars.currency, dollars.income) == ("USD", 9)
    assert (april.income, april.left) == (0, -80)


@given(
    some.integers(0, 10**7),
    some.dictionaries(some.text("abc", min_size=1), some.integers(1, 1000), min_size=1),
)
def test_parts_of_an_amount_sum_to_it(minor: int, shares: dict[str, int]) -> None:
    """No cent is lost, and none is a whole cent off its share."""
    parts = split(minor, shares)
    assert sum(parts.values()) == minor
    total = sum(shares.values())
    assert all(abs(parts[name] - minor * share / total) < 1 for name, share in shares.items())


def test_nothing_is_parted_among_nobody() -> None:
    """Without shares there are no parts."""
    assert split(100, {}) == {}
