"""How long a dam carries and when her litter is due."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.litters.conception import Check, Evidence, Sign
from colony.planning.litters.due_window import due_window
from colony.planning.litters.gestation import GestationLength, GestationPrior, believe

LEOPOLDI = GestationPrior(90, 168, 180)
"""What the program starts P. leopoldi with: common practice, no source."""


MATED = date(2024, 3, 1)


SEEN = Evidence("Alma", signs=(Sign(MATED, "copulation"),))


def after(days: int) -> date:
    """Count days from the mating."""
    return MATED + timedelta(days=days)


def test_without_records_the_window_is_the_species_own() -> None:
    """One copulation and no birth on record give the low, likely and high day as they stand."""
    window = due_window(LEOPOLDI, SEEN, today=after(5))
    assert window is not None
    assert (window.earliest, window.likely, window.latest) == (after(90), after(168), after(180))
    assert window.nursery_by == after(90) - timedelta(weeks=6)
    assert not window.overdue


@given(st.integers(0, 400), st.integers(0, 60))
def test_the_window_moves_on_and_never_lies_in_the_past(day: int, more: int) -> None:
    """A day without a birth moves no date back, and no date lies before today."""
    now, later = (due_window(LEOPOLDI, SEEN, today=after(d)) for d in (day, day + more))
    assert now is not None
    assert later is not None
    assert after(day) <= now.earliest <= now.likely <= now.latest
    assert now.earliest <= later.earliest
    assert now.likely <= later.likely
    assert now.latest <= later.latest
    assert now.nursery_by == later.nursery_by


def test_she_is_overdue_once_the_latest_date_has_passed() -> None:
    """Overdue begins on the day after the latest date, not before."""
    for day, overdue in ((180, False), (181, True), (400, True)):
        window = due_window(LEOPOLDI, SEEN, today=after(day))
        assert window is not None
        assert (window.overdue, window.state == "overdue") == (overdue, overdue)


def test_births_of_the_colony_and_of_the_dam_pull_the_window() -> None:
    """Ten births at 150 days narrow the window about 150; her own at 140 pull hers below."""
    colony = [GestationLength(f"dam{n % 5}", 150 + n % 3) for n in range(10)]
    without = due_window(LEOPOLDI, SEEN, colony, today=MATED)
    own = due_window(LEOPOLDI, SEEN, [*colony, *[GestationLength("Alma", 140)] * 3], today=MATED)
    assert without is not None
    assert own is not None
    assert abs((without.likely - after(151)).days) <= 2
    assert (without.latest - without.earliest).days < 50
    assert after(139) < own.likely < without.likely


def test_nothing_seen_is_never_not_pregnant() -> None:
    """A check that saw nothing leaves the window exactly where it was."""
    blind = Evidence("Alma", signs=SEEN.signs, checks=(Check(after(60), "nothing seen"),))
    assert due_window(LEOPOLDI, blind, today=after(70)) == due_window(
        LEOPOLDI, SEEN, today=after(70)
    )


@pytest.mark.parametrize("finding", ["false alarm", "aborted"])
def test_a_false_alarm_or_an_abortion_ends_the_wait(finding: str) -> None:
    """After either nothing is due, until a new mating sign is seen."""
    ended = Evidence("Alma", signs=SEEN.signs, checks=(Check(after(60), finding),))  # type: ignore[arg-type]
    assert due_window(LEOPOLDI, ended, today=after(61)) is None
    again = Evidence("Alma", (*ended.signs, Sign(after(80), "copulation")), checks=ended.checks)
    window = due_window(LEOPOLDI, again, today=after(81))
    assert window is not None
    assert window.likely == after(80 + 168)


def test_a_separation_bounds_a_pairing_without_signs() -> None:
    """Kept together for ten days and no sign: possible, from the first day to the last."""
    kept = Evidence("Alma", kept=((MATED, after(10)),))
    window = due_window(LEOPOLDI, kept, today=after(20))
    assert window is not None
    assert window.state == "possible"
    assert after(90) < window.earliest < after(100)
    assert after(180) < window.latest < after(190)


def test_found_gravid_confirms_and_bounds_the_conception() -> None:
    """Conception lies before the day she was found gravid, though the pairing goes on."""
    kept = Evidence("Alma", kept=((MATED, None),), checks=(Check(after(10), "gravid"),))
    window = due_window(LEOPOLDI, kept, today=after(60))
    assert window is not None
    assert window.state == "confirmed"
    assert window.latest < after(190)


def test_no_male_no_window() -> None:
    """A dam nobody saw with a male is due at no date."""
    assert due_window(LEOPOLDI, Evidence("Alma"), today=MATED) is None


def test_shrinkage_leans_on_the_dam_as_her_births_add_up() -> None:
    """One own birth moves her less than five; neither goes past what was seen."""
    means = [
        believe(LEOPOLDI, [GestationLength("Alma", 150)] * n, "Alma").likely_days
        for n in (0, 1, 5, 50)
    ]
    assert means == sorted(means, reverse=True)
    assert means[0] == 168
    assert means[-1] == pytest.approx(150, abs=0.3)
