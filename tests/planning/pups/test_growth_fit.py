"""Growth curves of a whole colony: truth recovered, intervals that keep their promise."""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import exp, log
from statistics import fmean

import numpy as np
import pytest

from colony.planning.pups.growth import GrowthPrior, Width, forecast
from colony.planning.pups.growth_check import calibrated, held_out
from colony.planning.pups.growth_data import Grower
from colony.planning.pups.growth_fit import ColonyGrowth, Spreads, fit_colony
from colony.planning.pups.growth_law import YEAR_DAYS, width_mm

BORN = date(2022, 1, 1)
PRIORS = {"F": GrowthPrior(763.06, 0.12), "M": GrowthPrior(536.4, 0.22)}
"""Asymptotic width and rate of P. leopoldi: Charvet et al. 2018, J. Fish Biol. 92:1985-1999."""


@dataclass(frozen=True)
class Truth:
    """What a simulated colony really does; spreads are of logs, `error_mm` of a width."""

    rate_factor: float = 2.5
    litter: tuple[float, float] = (0.2, 0.05)
    pup: tuple[float, float] = (0.2, 0.06)
    error_mm: float = 3.0
    most_widths: int = 10
    litters: int = 60


@dataclass(frozen=True)
class Farm:
    """A simulated colony: widths up to the last but one, and the true width at the last."""

    growers: list[Grower]
    next_width: dict[str, Width]
    true_mm: dict[str, float]


def simulated(truth: Truth, seed: int) -> Farm:
    """Raise litters by the law, from a seed, and measure them with an error."""
    rng = np.random.default_rng(seed)
    farm = Farm([], {}, {})
    for litter in range(truth.litters):
        shared = rng.normal(0, truth.litter)
        for pup in range(int(rng.integers(1, 9))):
            sex = "FM"[rng.integers(2)]
            rate, size = shared + rng.normal(0, truth.pup)
            _raise(farm, truth, rng, (f"L{litter}", f"{litter}.{pup}", sex, rate, size))
    return farm


def _raise(
    farm: Farm, truth: Truth, rng: np.random.Generator, pup: tuple[str, str, str, float, float]
) -> None:
    litter, tag, sex, rate, size = pup
    prior = PRIORS[sex]
    days = np.cumsum(rng.integers(7, 40, size=int(rng.integers(2, truth.most_widths + 2))))
    start = rng.normal(140, 12)
    true = [
        width_mm(
            start,
            prior.rate_per_year * truth.rate_factor * exp(rate),
            prior.asymptotic_mm * exp(size) - start,
            int(day) / YEAR_DAYS,
        )
        for day in days
    ]
    widths = [
        Width(BORN + timedelta(days=int(day)), round(mm + rng.normal(0, truth.error_mm)))
        for day, mm in zip(days, true, strict=True)
    ]
    farm.growers.append(Grower(tag, "leopoldi", sex, litter, BORN, tuple(widths[:-1]), prior))
    farm.next_width[tag], farm.true_mm[tag] = widths[-1], true[-1]


def covered(farm: Farm, fit: ColonyGrowth, tags: list[str]) -> float:
    """Share of true next widths inside their 80 % intervals."""
    hits = []
    for tag in tags:
        expected = forecast(fit.curves[tag], farm.next_width[tag].day)
        hits.append(expected.low_mm <= farm.true_mm[tag] <= expected.high_mm)
    return fmean(hits)


@pytest.mark.parametrize(
    "truth",
    [
        Truth(),
        Truth(rate_factor=0.8),
        Truth(rate_factor=5),
        Truth(litter=(0.05, 0.02), pup=(0.08, 0.02)),
        Truth(litter=(0.4, 0.1), pup=(0.35, 0.1)),
        Truth(error_mm=6),
        Truth(error_mm=1.5),
    ],
    ids=["usual", "slow", "fast", "alike", "unlike", "rough tape", "fine tape"],
)
def test_four_fifths_of_the_true_next_widths_lie_inside(truth: Truth) -> None:
    """The promise of an 80 % interval, on known truth: 72 to 88 % of three colonies' pups."""
    shares = []
    for seed in range(3):
        farm = simulated(truth, seed)
        shares.append(covered(farm, calibrated(farm.growers)[0], list(farm.true_mm)))
    assert 0.72 <= fmean(shares) <= 0.88


def test_one_width_and_ten_widths_both_keep_the_promise() -> None:
    """Pups measured once, and pups measured often, are each covered 72 to 88 %."""
    once, often = [], []
    for seed in range(8):
        farm = simulated(Truth(), 100 + seed)
        fit = calibrated(farm.growers)[0]
        single = [g.tag for g in farm.growers if len(g.widths) == 1]
        many = [g.tag for g in farm.growers if len(g.widths) >= 9]
        once += [covered(farm, fit, [tag]) for tag in single]
        often += [covered(farm, fit, [tag]) for tag in many]
    assert min(len(once), len(often)) > 100
    assert 0.72 <= fmean(once) <= 0.88
    assert 0.72 <= fmean(often) <= 0.88


def test_the_truth_is_recovered() -> None:
    """Rate, error and spreads of a large colony come back near what it was raised with."""
    farm = simulated(Truth(litters=300), 7)
    fit = fit_colony(farm.growers)
    assert fit.spreads.error_mm == pytest.approx(3, rel=0.1)
    assert fit.spreads.pup[0] == pytest.approx(0.2, rel=0.2)
    assert fit.spreads.litter[0] == pytest.approx(0.2, rel=0.3)
    grown = sum(fit.colony["leopoldi"])
    assert grown == pytest.approx(log(2.5), abs=0.15)


def test_seasons_no_law_knows_are_answered_by_a_wider_interval() -> None:
    """Growth that stops and starts shows in the held-out widths and stretches the intervals."""
    farm = simulated(Truth(error_mm=1), 3)
    rng = np.random.default_rng(3)
    jolted = [
        replace(g, widths=tuple(Width(w.day, w.width_mm + step) for w, step in zip(
            g.widths, np.cumsum(rng.normal(0, 6, len(g.widths))).clip(-60), strict=True)))
        for g in farm.growers
    ]  # fmt: skip
    assert held_out(farm.growers).stretch < 1.2
    checked = held_out(jolted)
    assert checked.stretch > 1.2
    assert checked.covered < 0.75


def test_litter_mates_lend_a_pup_their_pace() -> None:
    """A pup measured once grows in the forecast as its litter-mates were seen to grow."""

    def litter(pace_mm: float, name: str) -> list[Grower]:
        days = range(0, 120, 20)
        mates = [
            tuple(Width(BORN + timedelta(days=d), 140 + pace_mm * d) for d in days) for _ in "123"
        ]
        return [
            Grower(f"{name}{n}", "leopoldi", "F", name, BORN, widths, PRIORS["F"])
            for n, widths in enumerate([*mates, (Width(BORN, 140),)])
        ]

    fit = fit_colony([*litter(0.3, "slow"), *litter(0.9, "fast")])
    later = BORN + timedelta(days=100)
    slow, fast = (forecast(fit.curves[tag], later).width_mm for tag in ("slow3", "fast3"))
    assert slow < 185 < fast


def test_a_lone_pup_of_any_record_has_a_curve() -> None:
    """One width, none but a birth, or nothing at all: a curve, a curve, and no curve."""
    alone = Grower("a", "leopoldi", "F", "", BORN, (Width(BORN, 150),), PRIORS["F"])
    unmeasured = replace(alone, tag="b", widths=())
    unknown = replace(unmeasured, tag="c", born=None)
    fit = fit_colony([alone, unmeasured, unknown])
    assert set(fit.curves) == {"a", "b"}
    assert fit_colony([]).curves == {}
    wide = forecast(fit.curves["b"], BORN)
    assert wide.high_mm - wide.low_mm == pytest.approx(2 * 1.2816 * 15, rel=0.1)


def test_an_adult_past_its_asymptote_stands_still_and_does_not_shrink() -> None:
    """Widths beyond the species' asymptote lift the curve; no forecast falls."""
    widths = tuple(Width(BORN + timedelta(days=365 * n), 700 + n) for n in range(4))
    fit = fit_colony([Grower("big", "leopoldi", "M", "", None, widths, PRIORS["M"])])
    days = [widths[-1].day + timedelta(days=d) for d in (0, 100, 1000)]
    found = [forecast(fit.curves["big"], day).width_mm for day in days]
    assert found == sorted(found)
    assert found[0] == pytest.approx(703, abs=4)


def test_a_mended_width_changes_the_forecast() -> None:
    """Everything follows from the records: mend one width and the curve follows."""
    farm = simulated(Truth(litters=5), 1)
    first = farm.growers[0]
    mended = replace(first, widths=(*first.widths[:-1], Width(first.widths[-1].day, 300)))
    day = first.widths[-1].day + timedelta(days=30)
    before = forecast(fit_colony(farm.growers).curves[first.tag], day)
    after = forecast(fit_colony([mended, *farm.growers[1:]]).curves[first.tag], day)
    assert after.width_mm > before.width_mm + 10


def test_spreads_stay_where_they_start_without_data() -> None:
    """One pup proves nothing about spreads: they hold to their start."""
    alone = Grower("a", "leopoldi", "F", "", BORN, (Width(BORN, 150),), PRIORS["F"])
    assert fit_colony([alone]).spreads.pup == pytest.approx(Spreads().pup, rel=0.1)
