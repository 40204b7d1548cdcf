"""Days and spans as a breeder writes them."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.days import Day, parse_day, parse_day_as_known, parse_span_days, show_span
from colony.refusals.notation import DayOrderNotSaid, DayOutOfRange, UnreadableDay, UnreadableSpan

TODAY = date(2026, 3, 9)
ANY_DAY = st.dates(date(1900, 1, 1), date(2199, 12, 31))


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-03-09", date(2026, 3, 9)),
        ("2026-3-9", date(2026, 3, 9)),
        (" Today ", TODAY),
        ("yesterday", date(2026, 3, 8)),
        ("3d ago", date(2026, 3, 6)),
        ("2 w ago", date(2026, 2, 23)),
        ("in 2w", date(2026, 3, 23)),
        ("2024-02-29", date(2024, 2, 29)),
    ],
)
def test_a_day_is_read_in_each_way_it_is_said(text: str, day: date) -> None:
    """ISO 8601, today and its neighbours, and spans before and after it."""
    assert parse_day(text, TODAY) == day


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "2026-13-01",
        "2026-02-30",
        "2025-02-29",
        "d ago",
        "2026-00-09",
        "2026-05-00",
        "2026-00",
        "99999y ago",
        "٢٠٢٦-03-09",
        "2026-03-09T10:00",
    ],
)
def test_what_is_no_day_is_refused(text: str) -> None:
    """Another order, a day that never was, a zero for what is not known: not guessed at."""
    with pytest.raises(UnreadableDay):
        parse_day_as_known(text, TODAY)


def test_an_event_needs_one_exact_day() -> None:
    """A month is enough for a birth long ago, never for a litter or a move."""
    assert parse_day_as_known("2021-05", TODAY) == Day(date(2021, 5, 1), "month")
    with pytest.raises(UnreadableDay, match="one exact day"):
        parse_day("2021-05", TODAY)


@pytest.mark.parametrize("text", ["1899-12-31", "2200-01-01", "0001", "9999"])
def test_years_that_no_book_means_are_refused(text: str) -> None:
    """1900 to 2199: what lies outside is a slip of the key."""
    with pytest.raises(DayOutOfRange):
        parse_day_as_known(text, TODAY)


@pytest.mark.parametrize(
    ("text", "last"),
    [("2024-02", date(2024, 2, 29)), ("2025-12", date(2025, 12, 31)), ("2024", date(2024, 12, 31))],
)
def test_a_day_known_to_the_month_may_have_been_its_last(text: str, last: date) -> None:
    """Age counts from the last day that a birth can have been."""
    assert parse_day_as_known(text, TODAY).last == last


@given(ANY_DAY, st.sampled_from(["day", "month", "year"]))
def test_a_day_is_read_as_it_is_written(day: date, precision: str) -> None:
    """Writing a day as well as it is known and reading it again changes nothing."""
    first = {"day": day, "month": day.replace(day=1), "year": day.replace(month=1, day=1)}
    known = Day(first[precision], precision)
    assert parse_day_as_known(str(known), TODAY) == known


@pytest.mark.parametrize(("text", "days"), [("8w", 56), ("60d", 60), ("60", 60), ("6m", 180)])
def test_a_span_is_days_weeks_or_months(text: str, days: int) -> None:
    """A bare number is days; a month is 30 of them (common practice, no source)."""
    assert parse_span_days(text) == days


@pytest.mark.parametrize("text", ["", "w", "-3d", "3.5w", "8 weeks", "1e3"])
def test_what_is_no_span_is_refused(text: str) -> None:
    """A whole number and a unit, or nothing."""
    with pytest.raises(UnreadableSpan):
        parse_span_days(text)


@pytest.mark.parametrize(
    ("days", "said"), [(0, "0d"), (27, "27d"), (56, "8w"), (180, "6m"), (1000, "2y")]
)
def test_an_age_is_said_as_a_breeder_says_it(days: int, said: str) -> None:
    """Days at first, then weeks, months and years."""
    assert show_span(days) == said


@given(st.text(max_size=20) | st.from_regex(r"[0-9-]{1,12}|(in )?[0-9]{1,6}[dwmy]( ago)?"))
def test_no_text_does_anything_but_mean_a_day_or_be_refused(text: str) -> None:
    """Whatever is typed: a value or a refusal of wrong use, never another error."""
    day = value_or_refused(lambda: parse_day_as_known(text, TODAY))
    assert day is None or day.first <= day.last
    span = value_or_refused(lambda: parse_span_days(text))
    assert span is None or span >= 0


@pytest.mark.parametrize("text", ["9.3.2026", "09/03/26", "9-3-2026", "9 3 2026"])
def test_a_day_by_numbers_is_read_in_the_order_of_the_house(text: str) -> None:
    """By dmy the ninth of March, by mdy the third of September; unsaid, it is asked for."""
    assert parse_day(text, TODAY, "dmy") == date(2026, 3, 9)
    assert parse_day(text, TODAY, "mdy") == date(2026, 9, 3)
    with pytest.raises(DayOrderNotSaid, match="which is the day and which the month"):
        parse_day(text, TODAY)


@pytest.mark.parametrize(("text", "order"), [("31/2/2026", "dmy"), ("13/13/2026", "mdy")])
def test_a_day_that_the_order_does_not_have_is_refused(text: str, order: str) -> None:
    """There is no 31 February, and no thirteenth month."""
    with pytest.raises(UnreadableDay):
        parse_day(text, TODAY, order)
