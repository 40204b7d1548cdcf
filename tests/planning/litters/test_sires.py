"""Shares of possible sires, held to a sum over every day and male, and to hand-made cases."""

from collections import defaultdict
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from colony.planning.litters.company import Company, Together
from colony.planning.litters.conception import Sign
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.sires import Conceived, Share, conceived_on, sire_shares

DAY = date(2026, 1, 1)
PRIOR = GestationPrior(90.0, 120.0, 180.0)


def on(number: int) -> date:
    """The day of a number."""
    return DAY + timedelta(days=number)


def male(number: int, *stays: tuple[int, int]) -> Company:
    """A male with her from a day to a day."""
    return Company(number, tuple(Together("in N1", on(a), on(b)) for a, b in stays))


def shares(found: tuple[Share, ...]) -> dict[int | None, float]:
    """The shares by male."""
    return {each.male: each.share for each in found}


days = st.dictionaries(st.integers(0, 9), st.integers(1, 9), min_size=1)
companies = st.lists(st.sets(st.integers(0, 9), min_size=1), min_size=1, max_size=3)


@given(days, companies, st.sampled_from([0.0, 0.05, 0.2]))
def test_shares_are_those_of_every_day_and_male_counted_one_by_one(
    weights: dict[int, int], present: list[set[int]], unknown: float
) -> None:
    """P(sire) = sum over days of P(day) / males of that day, in exact fractions."""
    total = sum(weights.values())
    expected: dict[int, Fraction] = defaultdict(Fraction)
    for day, weight in weights.items():
        there = [number for number, own in enumerate(present) if day in own]
        for number in there:
            expected[number] += Fraction(weight, total * len(there))
    covered = sum(expected.values())
    conceived = [Conceived(on(day), weight / total) for day, weight in weights.items()]
    found = shares(
        sire_shares(
            conceived,
            [male(n, *((d, d) for d in sorted(own))) for n, own in enumerate(present)],
            unknown=unknown,
        )
    )
    if not covered:
        assert found == {}
        return
    wanted = {number: part / covered for number, part in expected.items()}
    if len(wanted) == 1:
        assert found == {next(iter(wanted)): 1.0}
        return
    assert sum(found.values()) == pytest.approx(1)
    kept = {n: share for n, share in wanted.items() if n in found}
    assert all(share < 0.02 for n, share in wanted.items() if n not in found)
    if len(kept) > 1:
        whole = sum(kept.values())
        for number, share in kept.items():
            assert found[number] == pytest.approx(float(share / whole) * (1 - unknown), abs=0.011)
        assert found.get(None, 0) == pytest.approx(unknown, abs=0.011)


def test_one_male_alone_is_the_sire_and_nobody_is_nobody() -> None:
    """However few the days; the unknown share is for where several are possible."""
    conceived = [Conceived(on(d), 0.1) for d in range(10)]
    assert shares(sire_shares(conceived, [male(7, (3, 3))], unknown=0.05)) == {7: 1.0}
    assert sire_shares(conceived, [], unknown=0.05) == ()
    assert sire_shares(conceived, [male(7, (30, 40))], unknown=0.05) == ()


def test_a_male_seen_mating_has_the_days_of_that_sign_to_himself() -> None:
    """Copulation on day 5 with one of two who were there all along: nine tenths and half a tenth."""
    spans = [(on(0), on(9))]
    even = GestationPrior(90.0, 120.0, 180.0)
    conceived = conceived_on(spans, [Sign(on(5), "copulation", 1)], even, on(129))
    seen = sum(c.weight for c in conceived if c.male == 1)
    assert sum(c.weight for c in conceived) == pytest.approx(1)
    assert seen == pytest.approx(0.9, abs=0.02)
    found = shares(sire_shares(conceived, [male(1, (0, 9)), male(2, (0, 9))], unknown=0.0))
    assert found[1] == pytest.approx(seen + (1 - seen) / 2, abs=0.006)


def test_days_weigh_as_the_gestation_that_they_imply() -> None:
    """Against scipy's normal distribution, either side of the likely length."""
    born = on(300)
    conceived = conceived_on([(on(100), on(220))], [], PRIOR, born)

    def z(length: float) -> float:
        reach = 30 if length < 120 else 60
        return float((length - 120) / (reach / norm.ppf(0.95)))

    chance = {
        day: norm.cdf(z((born - on(day)).days + 0.5)) - norm.cdf(z((born - on(day)).days - 0.5))
        for day in range(100, 221)
    }
    total = sum(chance.values())
    assert {c.day: c.weight for c in conceived} == pytest.approx(
        {on(day): share / total for day, share in chance.items()}
    )


def test_bites_on_days_outside_the_window_say_nothing() -> None:
    """A sign of before her last birth is of another litter."""
    plain = conceived_on([(on(10), on(20))], [], PRIOR, on(130))
    assert conceived_on([(on(10), on(20))], [Sign(on(5), "bites")], PRIOR, on(130)) == plain
