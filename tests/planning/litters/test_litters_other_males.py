"""Which other males may have sired a litter, held to calendars counted by hand."""

from datetime import date, timedelta

import pytest

from colony.planning.litters.conception import Check, Evidence
from colony.planning.litters.gestation import GestationPrior
from colony.planning.litters.other_males import (
    Male,
    conception_window,
    may_be_grown,
    shared_days,
    whole,
)

BORN = date(2026, 7, 1)
PRIOR = GestationPrior(90.0, 120.0, 180.0)
FIRST, LAST = BORN - timedelta(days=180), BORN - timedelta(days=90)


def evidence(*checks: Check, last_birth: date | None = None) -> Evidence:
    """What was seen of a dam, of whom no sign and no pairing is on record."""
    return Evidence("Alma", checks=checks, last_birth=last_birth)


def test_the_window_is_the_range_of_gestation_before_the_birth() -> None:
    """Of a dam of whom nothing was seen: 180 to 90 days before."""
    assert conception_window(evidence(), PRIOR, BORN) == (FIRST, LAST)


def test_no_litter_is_conceived_before_the_last_was_born() -> None:
    """A birth within the range cuts its beginning off; one before it changes nothing."""
    born_before = FIRST + timedelta(days=30)
    assert conception_window(evidence(last_birth=born_before), PRIOR, BORN) == (born_before, LAST)
    long_ago = FIRST - timedelta(days=1)
    assert conception_window(evidence(last_birth=long_ago), PRIOR, BORN) == (FIRST, LAST)


def test_a_dam_found_gravid_had_conceived() -> None:
    """The first such finding within the range ends it; one that the range contradicts does not."""
    seen = [Check(FIRST + timedelta(days=days), "gravid") for days in (40, 60)]
    assert conception_window(evidence(*seen), PRIOR, BORN) == (FIRST, seen[0].day)
    impossible = Check(FIRST - timedelta(days=5), "gravid")
    assert conception_window(evidence(impossible), PRIOR, BORN) == (FIRST, LAST)


@pytest.mark.parametrize(
    ("male", "grown"),
    [
        (Male(None, 700, None, 300), True),  # nothing says that he was too young
        (Male(699, 700, None, 300), False),
        (Male(700, 700, None, 300), True),
        (Male(699, 700, 299, 300), False),
        (Male(699, 700, 300, 300), True),
        (Male(900, 700, 200, 300), True),  # measured as a pup and not since
        (Male(100, 700, 100, 300, mature_seen=True), True),
    ],
)
def test_a_male_is_passed_over_only_where_all_that_is_known_says_he_was_young(
    *, male: Male, grown: bool
) -> None:
    """Age or width alone speak for him, and so does a litter that he sired."""
    assert may_be_grown(male) is grown


def test_shared_days_are_those_that_stand_in_both_calendars() -> None:
    """Counted day by day: the day that a stay ends on is spent elsewhere."""
    start, end = date(2026, 1, 10), date(2026, 2, 5)
    spans = [(date(2026, 1, 1), date(2026, 1, 12)), (date(2026, 2, 4), date(2026, 3, 1))]
    days = {start + timedelta(days=day) for day in range((end - start).days)}
    wanted = {
        first + timedelta(days=day)
        for first, last in spans
        for day in range((last - first).days + 1)
    }
    shared = shared_days(start, end, spans)
    assert {
        first + timedelta(days=day)
        for first, last in shared
        for day in range((last - first).days + 1)
    } == days & wanted
    assert whole(shared) == (date(2026, 1, 10), date(2026, 2, 4))
    assert shared_days(start, None, [(date(2026, 1, 1), date(2026, 1, 9))]) == []
