"""Who was with a dam and when, held to calendars counted day by day."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.planning.litters.company import (
    Maturing,
    Stay,
    conception_window,
    grown_from,
    shared_days,
    together,
    whole,
    without,
)
from colony.planning.litters.conception import Check, Evidence
from colony.planning.litters.gestation import GestationPrior

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


DAY = date(2026, 1, 1)


def on(number: int) -> date:
    """The day of a number."""
    return DAY + timedelta(days=number)


@pytest.mark.parametrize(
    ("animal", "grown"),
    [
        (Maturing(None, 700, (), 300), date.min),  # nothing says that it was too young
        (Maturing(DAY, 700, (), 300), on(700)),
        (Maturing(DAY, 700, ((on(500), 299),), 300), on(700)),
        (Maturing(DAY, 700, ((on(500), 299), (on(600), 300)), 300), on(600)),
        (Maturing(DAY, 700, ((on(800), 200),), 300), on(700)),  # measured as a pup and not since
        (Maturing(DAY, 700, ((on(100), 100),), 300, seen_on=on(400)), on(400)),
        (Maturing(None, 700, ((on(9), 300),), 300), date.min),
        (Maturing(None, 700, ((on(9), 200),), 300), None),
        (Maturing(None, 700, ((on(9), 200), (on(90), 310)), 300), on(90)),
    ],
)
def test_an_animal_is_young_only_where_all_that_is_known_says_so(
    animal: Maturing, grown: date | None
) -> None:
    """Age or width alone speak for it, and so do claspers or a litter."""
    assert grown_from(animal) == grown


stays = st.lists(
    st.tuples(
        st.sampled_from(["N1", "N2"]),
        st.integers(0, 20).map(on),
        st.none() | st.integers(1, 30).map(on),
    ),
    max_size=3,
).filter(lambda found: all(left is None or first < left for _, first, left in found))
spans = st.lists(
    st.tuples(st.integers(0, 20), st.none() | st.integers(0, 15)).map(
        lambda pair: (on(pair[0]), None if pair[1] is None else on(pair[0] + pair[1]))
    ),
    max_size=2,
)


@given(stays, stays, spans, st.integers(0, 10))
def test_two_are_together_on_the_days_that_calendars_say(
    dam: list[Stay], male: list[Stay], paired: list[tuple[date, date | None]], grown: int
) -> None:
    """In one tank from when both were grown; paired, but for days in two tanks."""
    found = together(dam, male, paired, grown_from=on(grown), last=on(25))
    for number in range(-2, 30):
        day = on(number)
        hers, his = (
            {tank for tank, first, left in own if first <= day and (left is None or day < left)}
            for own in (dam, male)
        )
        shared = bool(hers & his) and number >= grown
        elsewhere = any(one != other for one in hers for other in his)
        child = bool(hers & his) and number < grown
        meant = any(start <= day <= (end or day) for start, end in paired)
        wanted = number <= 25 and (shared or (meant and (child or not elsewhere)))
        if hers and his and len(hers) + len(his) > 2:
            continue  # an animal in two tanks on one day is a fault of the book
        assert any(stay.first <= day <= stay.last for stay in found) == wanted


@given(st.tuples(st.integers(0, 20), st.integers(0, 10)), spans)
def test_what_is_cut_out_of_a_span_is_not_in_it(
    span: tuple[int, int], cut: list[tuple[date, date | None]]
) -> None:
    """Held to the days one by one."""
    whole_span = (on(span[0]), on(span[0] + span[1]))
    taken = [(first, last or first) for first, last in cut]
    left = without(whole_span, taken)
    days = {d for d in range(40) if any(a <= on(d) <= b for a, b in left)}
    assert days == {
        d
        for d in range(40)
        if whole_span[0] <= on(d) <= whole_span[1] and not any(a <= on(d) <= b for a, b in taken)
    }


def test_shared_days_are_those_that_stand_in_both_calendars() -> None:
    """Counted day by day, the last one too."""
    start, end = date(2026, 1, 10), date(2026, 2, 5)
    spans = [(date(2026, 1, 1), date(2026, 1, 12)), (date(2026, 2, 4), date(2026, 3, 1))]
    days = {start + timedelta(days=day) for day in range((end - start).days + 1)}
    wanted = {
        first + timedelta(days=day)
        for first, last in spans
        for day in range((last - first).days + 1)
    }
    shared = shared_days((start, end), spans)
    assert {
        first + timedelta(days=day)
        for first, last in shared
        for day in range((last - first).days + 1)
    } == days & wanted
    assert whole(shared) == (date(2026, 1, 10), date(2026, 2, 5))
    assert shared_days((start, date.max), [(date(2026, 1, 1), date(2026, 1, 9))]) == []
