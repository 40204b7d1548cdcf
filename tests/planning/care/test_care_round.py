"""The round: what is due where, what was left undone, and in which order to walk."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from colony.notation.care import TASKS
from colony.planning.care.round import Rhythm, Work, WorkEntry, overdue, rhythm_at, todays_work
from colony.planning.care.walking_order import (
    WorkPlace,
)

TODAY = date(2025, 3, 10)


LONG_AGO = date(2025, 1, 1)


A1 = WorkPlace("A1", "tank", "S1", walk=1, role="grow-out", animals=3)


N1 = WorkPlace("N1", "tank", "S1", walk=2, role="nursery", animals=4)


S1 = WorkPlace("S1", "system", "S1", walk=1, animals=7)


FEEDING = Rhythm("feeding", LONG_AGO)


PADS = Rhythm("pad swap", LONG_AGO, every_days=7)


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


def one(place: WorkPlace, rhythm: Rhythm, *entries: WorkEntry) -> Work | None:
    """The work of one place with one rhythm."""
    found = todays_work([place], [rhythm], {(rhythm.task, place.name): entries}, TODAY)
    return found[0] if found else None


def test_pups_are_fed_twice_where_everyone_is_fed_once() -> None:
    """The rhythm of a role goes before everybody's, that of a tank before its role's."""
    twice = Rhythm("feeding", LONG_AGO, times_a_day=2, role="nursery")
    thrice = Rhythm("feeding", LONG_AGO, times_a_day=3, tank="N1")
    assert rhythm_at(A1, TASKS["feeding"], [FEEDING, twice, thrice]) == FEEDING
    assert rhythm_at(N1, TASKS["feeding"], [FEEDING, twice]) == twice
    assert rhythm_at(N1, TASKS["feeding"], [FEEDING, thrice, twice]) == thrice
    half = one(N1, twice, WorkEntry(ago(1), 2), WorkEntry(TODAY, 1))
    assert half is not None
    assert (half.wanted, half.done, half.is_open, half.overdue_days) == (2, 1, True, 0)


def test_a_task_is_done_at_tanks_or_for_a_system_and_not_for_empty_tanks() -> None:
    """A pad swap is the system's, a feeding the tank's; nobody is fed in an empty tank."""
    assert one(S1, FEEDING) is None
    assert one(A1, PADS) is None
    assert one(replace(A1, animals=0), FEEDING) is None
    assert one(S1, PADS) is not None


def test_what_was_not_done_is_there_tomorrow() -> None:
    """Last fed two days ago: since yesterday it is due, a day overdue; done yesterday: not."""
    late = one(A1, FEEDING, WorkEntry(ago(2)))
    assert late is not None
    assert (late.due, late.overdue_days) == (ago(1), 1)
    assert overdue([late]) == [late]
    fed = one(A1, FEEDING, WorkEntry(ago(1)))
    assert fed is not None
    assert (fed.due, fed.overdue_days) == (TODAY, 0)


def test_half_of_two_feedings_leaves_yesterday_open() -> None:
    """One of two feedings yesterday is not a day that was done."""
    twice = Rhythm("feeding", LONG_AGO, times_a_day=2)
    late = one(A1, twice, WorkEntry(ago(2), 2), WorkEntry(ago(1), 1))
    assert late is not None
    assert late.overdue_days == 1


def test_a_rhythm_of_days_is_quiet_until_it_comes_round() -> None:
    """Pads swapped three days ago are not in today's round; seven days ago they are."""
    assert one(S1, PADS, WorkEntry(ago(3))) is None
    due = one(S1, PADS, WorkEntry(ago(7)))
    assert due is not None
    assert (due.due, due.overdue_days) == (TODAY, 0)


def test_a_skip_lets_today_go_and_is_told_tomorrow() -> None:
    """Skipped today: not open. Skipped yesterday: due today, with the reason, not overdue."""
    today = one(S1, PADS, WorkEntry(ago(9)), WorkEntry(TODAY, 1, "no pads"))
    assert today is not None
    assert not today.is_open
    after = one(S1, PADS, WorkEntry(ago(9)), WorkEntry(ago(1), 1, "no pads"))
    assert after is not None
    assert (after.is_open, after.due, after.overdue_days) == (True, TODAY, 0)
    assert after.last_skip == "no pads"
    done_since = one(A1, FEEDING, WorkEntry(ago(2), 1, "to be shipped"), WorkEntry(ago(1)))
    assert done_since is not None
    assert done_since.last_skip is None


def test_a_tank_that_was_filled_yesterday_is_not_overdue_for_the_days_before() -> None:
    """Work begins with the animals, and with the rhythm."""
    new = one(replace(A1, since=ago(1)), FEEDING, WorkEntry(ago(50)))
    assert new is not None
    assert new.overdue_days == 1
    begun = one(A1, replace(FEEDING, started=TODAY))
    assert begun is not None
    assert begun.overdue_days == 0


def test_done_work_stays_in_todays_list_and_is_not_open() -> None:
    """What was ticked off today is shown as done, also when it was not yet due."""
    early = one(S1, PADS, WorkEntry(ago(3)), WorkEntry(TODAY))
    assert early is not None
    assert not early.is_open


@settings(deadline=None)
@given(
    st.lists(st.integers(0, 40), max_size=12),
    st.lists(st.integers(0, 40), max_size=4),
    st.integers(1, 10),
)
def test_the_due_day_is_what_a_calendar_would_find(
    done: list[int], skipped: list[int], every: int
) -> None:
    """Counting days one by one since the task was last done finds the same due day."""
    entries = [WorkEntry(ago(n)) for n in done] + [WorkEntry(ago(n), 1, "why") for n in skipped]
    found = one(S1, replace(PADS, every_days=every, started=ago(60)), *entries)
    due = None
    for n in range(60, -11, -1):
        wanted = (
            n == 60 if not [d for d in done if d > 0] else n == min(d for d in done if d) - every
        )
        if wanted or (due is None and n == -10):
            due = n
        if n + 1 in skipped and n >= 0 and (due is None or n < due):
            due = n
    assert due is not None
    if due < 0 and 0 not in done:
        assert found is None
    else:
        assert found is not None
        assert found.due == ago(due)


@pytest.mark.parametrize("days", [1, 3, 30])
def test_the_longest_overdue_comes_first(days: int) -> None:
    """Overdue work is sorted by the days that it waits."""
    works = todays_work(
        [A1, S1],
        [FEEDING, PADS],
        {("feeding", "A1"): [WorkEntry(ago(2))], ("pad swap", "S1"): [WorkEntry(ago(7 + days))]},
        TODAY,
    )
    late = overdue(works)
    assert [work.overdue_days for work in late] == sorted([1, days], reverse=True)
