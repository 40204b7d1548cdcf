"""Tanks and systems, moves, and what a pup measures and eats."""

from datetime import date

import pytest
from farm import TODAY, Farm

from colony.acts.pups.measure import measure
from colony.acts.tanks.loads import list_tanks
from colony.acts.tanks.tanks import set_system
from colony.refusals.animals import NotHere
from colony.refusals.tanks import AlreadyInTank, MoveBeforeLast, TankDoesNotFit


@pytest.fixture
def house(farm: Farm) -> Farm:
    """Two tanks of 4 m and one of 1 m; Alma of 45 cm in the first."""
    farm.tank("B1")
    farm.tank("B2")
    farm.tank("S1", size="1m")
    farm.female("Alma", tank="B1", width="45cm", arrived="2025-01-01")
    return farm


def places(farm: Farm, tag: str) -> list[tuple[str, str, str | None]]:
    """Where an animal was, from when to when."""
    return farm.rows(
        "SELECT t.code, p.entered_on, p.left_on FROM placement p JOIN tank t ON t.id = p.tank_id"
        " JOIN animal a ON a.id = p.animal_id WHERE a.tag = ? ORDER BY p.entered_on",
        tag,
    )


def test_a_move_ends_one_place_where_the_next_begins(house: Farm) -> None:
    """The day of the move belongs to the new tank."""
    house.move("Alma", tank="b2", on="10d ago")
    assert places(house, "Alma") == [
        ("B1", "2025-01-01", "2026-02-27"),
        ("B2", "2026-02-27", None),
    ]


def test_a_second_move_on_a_day_replaces_the_first(house: Farm) -> None:
    """Put into the wrong tank, and then into the right one."""
    house.move("Alma", tank="S1", anyway=True)
    house.move("Alma", tank="B2")
    assert places(house, "Alma") == [
        ("B1", "2025-01-01", "2026-03-09"),
        ("B2", "2026-03-09", None),
    ]


def test_animals_move_together_or_not_at_all(house: Farm) -> None:
    """One of them is there already: neither moves; named twice is once."""
    house.male("Bruno", tank="B2")
    before = house.written()
    with pytest.raises(AlreadyInTank, match="Bruno"):
        house.move("Alma", "Bruno", tank="B2")
    assert house.written() == before
    house.move("Alma", "ALMA", tank="B2")
    assert places(house, "Alma")[-1][0] == "B2"


def test_a_move_is_not_written_before_the_last_one(house: Farm) -> None:
    """The book knows where she was that day."""
    house.move("Alma", tank="B2", on="10d ago")
    with pytest.raises(MoveBeforeLast, match="2026-02-27"):
        house.move("Alma", tank="S1", on="20d ago", anyway=True)


def test_a_tank_that_is_too_small_says_why_or_is_overridden(house: Farm) -> None:
    """Twice her width across and four times along (common practice, no source)."""
    with pytest.raises(TankDoesNotFit, match="Alma of 45 cm disc width needs 180 cm"):
        house.move("Alma", tank="S1")
    house.move("Alma", tank="S1", anyway=True)
    line = next(one for one in house.ask(list_tanks, today=TODAY) if one.tank == "S1")
    assert line.animals == ["Alma"]
    assert line.breaks != []


def test_the_load_of_a_tank_is_disc_area_over_floor_area(house: Farm) -> None:
    """A disc of 45 cm on 16 square metres: pi/4 0.45**2 / 16."""
    line = next(one for one in house.ask(list_tanks, today=TODAY) if one.tank == "B1")
    assert line.load == pytest.approx(3.14159265 / 4 * 0.45**2 / 16, abs=1e-4)


def test_a_system_is_mended_by_its_name_in_any_case(house: Farm) -> None:
    """Main is Main: no second one is made."""
    house.do(set_system, name="main", volume_l=5000)
    assert house.rows("SELECT name, volume_l FROM system") == [("Main", 5000)]


def test_an_animal_that_left_is_moved_no_more(house: Farm) -> None:
    """Nor is its place open."""
    house.end("Alma", "sold")
    with pytest.raises(NotHere, match="was sold"):
        house.move("Alma", tank="B2")


def test_a_second_width_on_a_day_mends_the_first(house: Farm) -> None:
    """One row a day; mass is kept where only the width is mended."""
    facts = {"tag": "Alma", "on": TODAY, "today": TODAY}
    house.do(measure, width_mm=455, mass_g=4000, **facts)
    house.do(measure, width_mm=460, **facts)
    assert house.rows("SELECT width_mm, mass_g FROM measurement") == [(460, 4000)]


def test_growth_is_told_since_the_last_width(house: Farm) -> None:
    """From 45.0 to 46.4 cm in four weeks: 14 mm, 3.5 mm a week."""
    house.write("UPDATE measurement SET measured_on = '2026-02-09'")
    found = house.do(measure, tag="Alma", width_mm=464, on=TODAY, today=TODAY)
    assert (found.growth_mm, found.growth_mm_per_week, found.since) == (14, 3.5, date(2026, 2, 9))
    assert found.warnings == ()


@pytest.mark.parametrize(("width_mm", "said"), [(440, "do not shrink"), (600, "check the tag")])
def test_a_width_that_cannot_be_is_written_and_doubted(
    house: Farm, width_mm: int, said: str
) -> None:
    """The tape slipped, or it was another animal: the breeder decides."""
    house.write("UPDATE measurement SET measured_on = '2026-02-09'")
    found = house.do(measure, tag="Alma", width_mm=width_mm, on=TODAY, anyway=True, today=TODAY)
    assert said in found.warnings[0]


@pytest.mark.parametrize("width_mm", [446, 454])
def test_what_measuring_alone_explains_is_not_doubted(house: Farm, width_mm: int) -> None:
    """A few millimetres more or less than yesterday's 45.0 cm is the tape, not the ray."""
    house.write("UPDATE measurement SET measured_on = '2026-03-08'")
    found = house.do(measure, tag="Alma", width_mm=width_mm, on=TODAY, today=TODAY)
    assert found.warnings == ()


def test_what_was_measured_before_it_left_is_still_written(house: Farm) -> None:
    """Sold in the morning, the book kept in the evening."""
    house.write("UPDATE measurement SET measured_on = '2026-03-01'")
    house.end("Alma", "sold", on="1d ago")
    house.measure("Alma", "46cm", on="1d ago")
    house.feed("Alma", "prawn", on="2d ago")
    with pytest.raises(NotHere):
        house.measure("Alma", "46cm", on="today")


def test_a_food_is_one_food_in_any_case_and_the_last_word_of_a_day_counts(house: Farm) -> None:
    """Refused in the morning, taken at night."""
    house.feed("Alma", "Worms", took=False)
    house.feed("Alma", "worms", took=True)
    assert house.rows("SELECT food, took FROM feeding") == [("worms", 1)]
