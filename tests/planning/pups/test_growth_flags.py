"""What looks wrong about a pup's widths."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from colony.planning.pups.growth import GrowthPrior, Width, first_curve
from colony.planning.pups.growth_flags import GrowthRecord, OffCurve, off_curve, trusted_widths

BORN = date(2024, 1, 1)
PRIOR = GrowthPrior(763, 0.4)


def measured(*widths: float, days: int = 21) -> list[Width]:
    """Measure every few days."""
    return [Width(BORN + timedelta(days=n * days), w) for n, w in enumerate(widths)]


def record(tag: str, widths: list[Width], litter: str = "L1") -> GrowthRecord:
    """Make the record of a pup with the curve of its species."""
    trusted = trusted_widths(widths)
    curve = first_curve(trusted.kept, PRIOR, born=None)
    assert curve is not None
    return GrowthRecord(tag, litter, trusted, curve, PRIOR.asymptotic_mm, PRIOR.rate_per_year)


def flags(*pups: GrowthRecord) -> list[OffCurve]:
    """Call the pups out twelve weeks after birth."""
    return list(off_curve(pups, BORN + timedelta(weeks=12)))


def test_a_smaller_later_width_is_flagged_and_not_obeyed() -> None:
    """150 after 170 cannot be: the later one is left out, and called out."""
    widths = measured(150, 170, 150)
    assert trusted_widths(widths).kept == tuple(widths[:2])
    (flag,) = flags(record("p1", widths))
    assert flag.kind == "shrank"
    assert "15 cm" in flag.sentence
    assert "17 cm" in flag.sentence


def test_one_slip_of_the_tape_does_not_condemn_the_rest() -> None:
    """A single width far too large is the doubtful one, not all that follow it."""
    widths = measured(140, 250, 150, 158, 166)
    assert trusted_widths(widths).doubtful == (widths[1],)
    (flag,) = flags(record("p1", widths))
    assert "25 cm" in flag.sentence
    assert "16.6 cm" in flag.sentence


def test_a_difference_that_measuring_explains_is_kept() -> None:
    """5 mm less is within the error of two tapes."""
    assert trusted_widths(measured(150, 145)).doubtful == ()


@given(st.lists(st.floats(80, 400), max_size=12))
def test_trusted_and_doubtful_are_all_there_is(widths: list[float]) -> None:
    """Nothing is lost, and the trusted ones never fall by more than the slip allowed."""
    found = trusted_widths(measured(*widths))
    assert sorted([*found.kept, *found.doubtful], key=lambda w: w.day) == measured(*widths)
    for n, width in enumerate(found.kept):
        assert all(w.width_mm - width.width_mm <= 8.49 for w in found.kept[:n])


def test_a_pup_that_stands_still_is_called_out() -> None:
    """Two millimetres in nine weeks, where tens were due."""
    (flag,) = flags(record("p1", measured(150, 151, 152, 152)))
    assert flag.kind == "stands still"


def test_a_pup_that_grows_is_not_called_out() -> None:
    """Growth near the colony's own pace raises no flag."""
    assert flags(record("p1", measured(150, 164, 177, 190))) == []


def test_a_pup_far_below_its_litter_mates_is_called_out() -> None:
    """75 % of the middle of its litter; a small pup of another litter is left alone."""
    mates = [record(f"m{n}", measured(200)) for n in range(3)]
    (flag,) = flags(*mates, record("runt", measured(140)), record("other", measured(140), "L2"))
    assert (flag.tag, flag.kind) == ("runt", "behind its litter")
