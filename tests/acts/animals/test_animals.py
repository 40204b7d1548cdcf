"""Animals: a new one, a corrected fact, an end, and the list of the herd."""

from datetime import date
from typing import Any

import pytest
from farm import TODAY, Farm

from colony.acts.animals.animals import bring_back
from colony.acts.animals.listing import AnimalFilter, list_animals
from colony.acts.animals.page import show_animal
from colony.acts.animals.species import add_species, list_species, set_trait, show_species
from colony.acts.health.holds import release
from colony.refusals.animals import (
    AlreadyEnded,
    EndsBeforeItBegan,
    NoSuchSpecies,
    NotATraitNumber,
    NotYet,
    ParentNotOlder,
    TagTaken,
    TransponderTaken,
)
from colony.refusals.tanks import NoSuchTank


def tags(farm: Farm, **wanted: Any) -> list[str]:  # noqa: ANN401 - each fact has its own type
    """Tags of those in the list."""
    lines, _ = farm.ask(list_animals, wanted=AnimalFilter(**wanted), today=TODAY)
    return [line.tag for line in lines]


def test_an_animal_is_all_that_was_said_of_it(farm: Farm) -> None:
    """Every fact that is typed stands on its page, the month of birth as a month."""
    farm.tank("B1")
    farm.female("Mother")
    farm.male("Father")
    farm.animal(
        "Alma",
        name="the grey one",
        species="P. leopoldi",
        sex="F",
        born="2021-05",
        origin="bred elsewhere",
        arrived="2022-01-10",
        arrived_from="a friend",
        line="white spot",
        transponder="999000000000001",
        dam="Mother",
        sires="Father",
        note="eats well",
        tank="B1",
        width="45cm",
    )
    page = farm.ask(show_animal, tag="ALMA", today=TODAY)
    assert (page.tag, page.facts["name"], page.facts["species"], page.facts["sex"]) == (
        "Alma",
        "the grey one",
        "leopoldi",
        "F",
    )
    assert (page.facts["born"], page.facts["origin"], page.facts["arrived"]) == (
        *("2021-05", "bred elsewhere"),
        date(2022, 1, 10),
    )
    assert (page.facts["dam"], page.facts["sires"], page.facts["line"], page.facts["note"]) == (
        *("Mother", ["Father"]),
        *("white spot", "eats well"),
    )
    assert page.placements == [{"tank": "B1", "entered_on": date(2022, 1, 10), "left_on": None}]
    assert page.widths[0]["disc_width_mm"] == 450
    # Where only the month is known an animal is at least as old as if born on its last day.
    assert page.age_days == (TODAY - date(2021, 5, 31)).days


def test_a_text_is_cleared_and_a_fact_is_mended(farm: Farm) -> None:
    """An empty text clears; what is not said stays."""
    farm.female("Alma", note="lame", line="white spot")
    farm.edit("Alma", note="", new_tag="Alma 2", species="motoro")
    page = farm.ask(show_animal, tag="Alma 2", today=TODAY)
    assert (page.facts["note"], page.facts["line"], page.facts["species"]) == (
        None,
        "white spot",
        "motoro",
    )


def test_a_tag_and_a_transponder_have_one_bearer(farm: Farm) -> None:
    """In any case of letters; keeping one's own is no clash."""
    farm.female("Alma", transponder="999000000000001")
    farm.male("Bruno")
    with pytest.raises(TagTaken):
        farm.edit("Bruno", new_tag="ALMA")
    with pytest.raises(TransponderTaken, match="Alma"):
        farm.edit("Bruno", transponder="999000000000001")
    farm.edit("Alma", new_tag="alma", transponder="999000000000001")
    assert tags(farm) == ["alma", "Bruno"]


@pytest.mark.parametrize(
    "fact", [{"born": "in 1w"}, {"arrived": "in 1w"}, {"mature_since": "in 1w"}]
)
def test_nothing_is_written_down_before_it_happened(farm: Farm, fact: dict[str, str]) -> None:
    """Birth, arrival, maturity: the refusal says which."""
    with pytest.raises(NotYet):
        farm.animal("Alma", **fact)
    assert tags(farm) == []


def test_the_days_of_a_life_stand_in_their_order(farm: Farm) -> None:
    """No arrival, maturity or end before the birth, whichever is mended later."""
    for fact in ("arrived", "mature_since"):
        with pytest.raises(EndsBeforeItBegan):
            farm.animal("Zoe", born="2024", **{fact: "2023-12-31"})
    farm.female("Alma", born="2020-05-01")
    with pytest.raises(EndsBeforeItBegan):
        farm.end("Alma", on="2020-04-30")
    farm.end("Alma", on="2021-01-01")
    with pytest.raises(EndsBeforeItBegan, match="2021-01-01"):
        farm.edit("Alma", born="2021-01-02")


def test_a_parent_is_older_than_its_young(farm: Farm) -> None:
    """By the last day that each birth can have been; of one year both may be."""
    farm.female("Alma", born="2020-05")
    farm.animal("Zoe", born="2020-06", dam="Alma")
    with pytest.raises(ParentNotOlder, match="Alma"):
        farm.animal("Yves", born="2020-04", dam="Alma")


def test_an_end_closes_the_place_the_hold_and_the_pairing(farm: Farm) -> None:
    """Its last day in the tank is the day of its end."""
    farm.tank("B1")
    farm.female("Alma", tank="B1", arrived="2025-01-01")
    farm.male("Bruno")
    farm.pair("Alma", "Bruno", on="60d ago")
    farm.hold("Alma", on="10d ago")
    farm.end("Alma", "died", on="2d ago")
    assert farm.rows("SELECT left_on FROM placement") == [("2026-03-08",)]
    assert farm.rows("SELECT ended FROM hold") == [("2026-03-07",)]
    assert farm.rows("SELECT ended FROM pairing") == [("2026-03-07",)]
    with pytest.raises(AlreadyEnded, match="died on 2026-03-07"):
        farm.end("Alma", "sold")


def test_an_end_that_was_a_mistake_is_taken_back(farm: Farm) -> None:
    """Present again, without the reason of an end that was none; where it swims is said again."""
    farm.female("Alma")
    farm.end("Alma")
    farm.do(bring_back, tag="Alma")
    assert farm.rows("SELECT status, ended_on, ended_why FROM animal") == [("present", None, None)]


def test_a_hold_ends_when_it_is_released(farm: Farm) -> None:
    """From a day to a day, with its reason."""
    farm.female("Alma")
    farm.hold("Alma", "cloudy eye", on="10d ago")
    farm.do(release, tag="Alma", on=TODAY, today=TODAY)
    assert farm.rows("SELECT started, ended, why FROM hold") == [
        ("2026-02-27", "2026-03-09", "cloudy eye")
    ]


@pytest.fixture
def herd(farm: Farm) -> Farm:
    """Some animals to look for."""
    farm.tank("B1")
    farm.female("Alma", tank="B1", line="white spot", name="Grey")
    farm.male("Bruno", species="motoro")
    farm.animal("Zoe", dam="Alma", born="2024")
    farm.end("Bruno", "sold")
    return farm


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        ({}, ["Alma", "Zoe"]),
        ({"status": None}, ["Alma", "Bruno", "Zoe"]),
        ({"status": "sold"}, ["Bruno"]),
        ({"species": "P. leopoldi"}, ["Alma"]),
        ({"sex": "U"}, ["Zoe"]),
        ({"line": "White Spot"}, ["Alma"]),
        ({"tank": "b1"}, ["Alma"]),
        ({"words": ("alm",)}, ["Alma", "Zoe"]),
        ({"words": ("grey",)}, ["Alma"]),
        ({"words": ("nobody",)}, []),
    ],
)
def test_the_herd_is_narrowed_by_what_is_wanted(
    herd: Farm, wanted: dict[str, Any], found: list[str]
) -> None:
    """In any case of letters, species by any of its names, search in parents too."""
    assert tags(herd, **wanted) == found


def test_a_species_or_tank_that_is_none_is_no_empty_list(herd: Farm) -> None:
    """A mistyped filter says so."""
    with pytest.raises(NoSuchSpecies):
        tags(herd, species="goldfish")
    with pytest.raises(NoSuchTank):
        tags(herd, tank="B9")


def test_a_species_has_the_numbers_that_were_set(farm: Farm) -> None:
    """Each with its source; the family's stand in for the others."""
    farm.do(add_species, name="tigrina", scientific_name="Potamotrygon tigrina")
    farm.do(set_trait, name="P. tigrina", trait="rest_days", number=90, source="own records")
    page = farm.ask(show_species, name="tigrina")
    assert [(trait.trait, trait.number, trait.source) for trait in page.traits] == [
        ("rest_days", 90, "own records")
    ]
    assert "tigrina" in [one.species for one in farm.ask(list_species)]
    for number in (0, -1, float("nan"), float("inf")):
        with pytest.raises(NotATraitNumber):
            farm.do(set_trait, name="tigrina", trait="rest_days", number=number, source="a slip")


def test_a_page_of_the_herd_says_how_many_more_there_are(farm: Farm) -> None:
    """At most so many lines, the first of the whole list, and the number of the others."""
    for tag in ("Alma", "Birke", "Cora"):
        farm.female(tag)
    everybody, none = farm.ask(list_animals, wanted=AnimalFilter(), today=TODAY)
    page, more = farm.ask(list_animals, wanted=AnimalFilter(), most=2, today=TODAY)
    assert (page, more, none) == (everybody[:2], len(everybody) - 2, 0)
