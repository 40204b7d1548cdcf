"""The choices of a book."""

from dataclasses import asdict

import pytest
from farm import Farm
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from typed import value_or_refused

from colony.acts.book.settings import set_setting, show_settings
from colony.refusals.books import BadSetting, UnknownSetting
from colony.store.settings import BookSettings


def test_a_new_book_has_the_default_of_every_choice(farm: Farm) -> None:
    """Nothing is written before it is chosen."""
    assert farm.ask(show_settings) == asdict(BookSettings())
    assert farm.rows("SELECT count(*) FROM setting") == [(0,)]


def test_a_choice_is_kept_and_mended(farm: Farm) -> None:
    """The last word counts; both are in the journal."""
    farm.do(set_setting, key="isolation_days", value="40")
    farm.do(set_setting, key="isolation_days", value="45")
    assert farm.ask(show_settings)["isolation_days"] == 45
    assert farm.rows("SELECT count(*) FROM journal WHERE act = 'set_setting'") == [(2,)]


def test_there_is_no_choice_of_another_name(farm: Farm) -> None:
    """The refusal names those there are."""
    with pytest.raises(UnknownSetting, match="isolation_days"):
        farm.do(set_setting, key="isolation", value="40")


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("length_unit", "ft"),
        ("isolation_days", "a month"),
        ("isolation_days", "-1"),
        ("isolation_days", "9" * 30),
        ("load_limit", "nan"),
        ("load_limit", "0"),
        ("pup_tag", "{litter}"),
        ("pup_tag", "{litter}-{n}-{n}"),
        ("pup_tag", "{n}={dam}"),
        ("pup_tag", "{n.real}"),
        ("pup_tag", "{n[0]}"),
        ("pup_tag", "{n:>999999999}"),
        ("pup_tag", "{n}{nobody}"),
        ("pup_tag", "{"),
        ("pup_tag", "-{n}"),
        ("pup_tag", "{n}" + "x" * 40),
    ],
)
def test_a_choice_takes_what_it_takes(farm: Farm, key: str, value: str) -> None:
    """The refusal says what would be right, and nothing is written."""
    before = farm.written()
    with pytest.raises(BadSetting, match="it takes"):
        farm.do(set_setting, key=key, value=value)
    assert farm.written() == before


@given(
    key=st.sampled_from(sorted(asdict(BookSettings()))),
    value=st.text(max_size=20).filter(lambda text: "\x00" not in text),
)
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_text_does_anything_but_choose_or_be_refused(farm: Farm, key: str, value: str) -> None:
    """Whatever is typed: a choice that can be read again, or a refusal."""
    value_or_refused(lambda: farm.do(set_setting, key=key, value=value))
    assert farm.ask(show_settings).keys() == asdict(BookSettings()).keys()


@pytest.mark.parametrize(
    ("pattern", "tags"),
    [
        ("{litter}-{n}", ("26-01-1", "26-01-2")),
        ("{dam}{yy}.{n:02}", ("Alma26.01", "Alma26.02")),
        ("{sex}{n} {litter}", ("F1 26-01", "M2 26-01")),
    ],
)
def test_pups_are_tagged_in_the_pattern_of_the_book(
    farm: Farm, pattern: str, tags: tuple[str, ...]
) -> None:
    """One pup, one number, in the breeder's own way of writing."""
    farm.female("Alma")
    farm.do(set_setting, key="pup_tag", value=pattern)
    assert farm.litter("Alma", "1F1M", sires="unknown").pups == tags


def test_a_number_that_is_taken_is_passed_over(farm: Farm) -> None:
    """Every animal has a tag of its own, also one that was added by hand before."""
    farm.female("Alma")
    farm.animal("26-01-2")
    assert farm.litter("Alma", "3U", sires="unknown").pups == ("26-01-1", "26-01-3", "26-01-4")


def test_the_tag_of_a_dam_is_cut_before_the_number_of_a_pup(farm: Farm) -> None:
    """A dam of forty letters and a number in front: each pup still has a tag of its own."""
    farm.female("A" * 40)
    farm.do(set_setting, key="pup_tag", value="{n}/{dam}")
    tags = farm.litter("A" * 40, "2U", sires="unknown").pups
    assert tags == ("1/" + "A" * 38, "2/" + "A" * 38)
