"""The picture of a house's money by month."""

from xml.etree import ElementTree as ET

import pytest

from colony.papers.sale.months import BOTTOM, HEIGHT, TOP, months_svg
from colony.planning.orders.months import MonthOfMoney


def month(name: str, income: int, expenses: int) -> MonthOfMoney:
    """One month in euros and cents."""
    return MonthOfMoney(name, "EUR", income, expenses, {}, {})


@pytest.mark.parametrize("count", [0, 1, 12, 60])
def test_each_month_has_two_bars_within_the_picture(count: int) -> None:
    """As high as their amounts; the greatest is within the scale."""
    months = [month(f"2026-{n % 12 + 1:02}", 10_000 * n, 7_000 * n) for n in range(count)]
    drawn = ET.fromstring(months_svg(months))  # noqa: S314 - our own picture
    bars = [r for r in drawn.iter() if r.get("class") in {"in", "out"}]
    assert len(bars) == 2 * count + 2  # and two in the legend
    heights = [float(bar.get("height", 0)) for bar in bars[:-2]]
    assert all(0 <= height <= HEIGHT - TOP - BOTTOM for height in heights)
    if count > 2:
        assert heights[2] * 2 == pytest.approx(heights[4], abs=0.2)


def test_months_of_another_currency_are_left_out() -> None:
    """Two currencies have no scale in common."""
    other = MonthOfMoney("2026-01", "JPY", 5, 5, {}, {})
    text = months_svg([month("2026-01", 100, 50), other])
    assert text.count('class="in"') == 2
    assert "EUR" in text
