"""Dates as spreadsheets write them."""

from datetime import date, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.text.days import read_sheet_day
from colony.refusals.base import WrongUse
from colony.refusals.cells import DayInTheFuture, DayNotInOrder, DayReadsTwoWays, NotADayInASheet
from colony.refusals.notation import DayOutOfRange

TODAY = date(2026, 3, 2)
FORMATS = {"dmy": "%d/%m/%Y", "mdy": "%m/%d/%Y"}


@given(st.dates(date(1900, 1, 1), TODAY), st.sampled_from(["dmy", "mdy"]), st.sampled_from("/.-"))
def test_ordered_dates_read_as_strptime_reads_them(day: date, order: str, stroke: str) -> None:
    """Day and month first agree with the standard library's `strptime`."""
    text = day.strftime(FORMATS[order]).replace("/", stroke)
    expected = datetime.strptime(text.replace(stroke, "/"), FORMATS[order]).date()  # noqa: DTZ007 - a day has no zone
    assert read_sheet_day(text, order, TODAY).first == expected


@pytest.mark.parametrize("order", ["iso", "dmy", "mdy"])
@pytest.mark.parametrize(
    ("text", "first", "precision"),
    [
        ("2024-05-07", date(2024, 5, 7), "day"),
        ("2024/5/7", date(2024, 5, 7), "day"),
        ("2024-05-07 00:00:00", date(2024, 5, 7), "day"),
        ("2024-05-07T00:00", date(2024, 5, 7), "day"),
        ("7 May 2024", date(2024, 5, 7), "day"),
        ("07-May-2024", date(2024, 5, 7), "day"),
        ("May 2024", date(2024, 5, 1), "month"),
        ("september 2024", date(2024, 9, 1), "month"),
        ("5/2024", date(2024, 5, 1), "month"),
        ("2024-05", date(2024, 5, 1), "month"),
        ("2024", date(2024, 1, 1), "year"),
    ],
)
def test_what_reads_one_way_only_needs_no_option(
    order: str, text: str, first: date, precision: str
) -> None:
    """ISO 8601, months by name and bare months and years are taken whatever the order is."""
    day = read_sheet_day(text, order, TODAY)
    assert (day.first, day.precision) == (first, precision)


@pytest.mark.parametrize(("text", "year"), [("1/2/24", 2024), ("1/2/26", 2026), ("1/2/27", 1927)])
def test_two_digits_mean_the_latest_such_year_that_has_come(text: str, year: int) -> None:
    """A short year is never in the future."""
    assert read_sheet_day(text, "dmy", TODAY).first.year == year


@pytest.mark.parametrize(
    ("text", "order", "refusal"),
    [
        ("3/9/2024", "iso", DayReadsTwoWays),
        ("25/9/2024", "iso", DayReadsTwoWays),
        ("9/25/2024", "dmy", DayNotInOrder),
        ("25/9/2024", "mdy", DayNotInOrder),
        ("31.02.2024", "dmy", DayNotInOrder),
        ("soon", "iso", NotADayInASheet),
        ("3d ago", "iso", NotADayInASheet),
        ("today", "iso", NotADayInASheet),
        ("45321", "iso", NotADayInASheet),
        ("2024-02-30", "iso", NotADayInASheet),
        ("Foo 2024", "iso", NotADayInASheet),
        ("1066-10-14", "iso", DayOutOfRange),
        ("2026-03-03", "iso", DayInTheFuture),
    ],
)
def test_a_date_that_cannot_be_is_refused_and_names_the_option(
    text: str, order: str, refusal: type[WrongUse]
) -> None:
    """An ambiguous date is never guessed; where the order matters its remedy is that option."""
    with pytest.raises(refusal) as refused:
        read_sheet_day(text, order, TODAY)
    needs_option = refusal in (DayReadsTwoWays, DayNotInOrder, NotADayInASheet)
    named = {name for remedy in refused.value.remedies for name, _ in remedy.facts}
    assert (named == {"date_order"}) == needs_option
