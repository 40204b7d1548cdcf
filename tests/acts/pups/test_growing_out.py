"""Ready pups, forecasts and call-outs: from the records, and anew after each of them is mended."""

from datetime import date, timedelta
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from growing_house import TODAY, GrowingHouse, ago, furnished
from sqlmodel import Session

from colony.acts.animals.animals import add_animal, edit_animal, end_animal
from colony.acts.animals.species import set_trait
from colony.acts.book.day import state_of_the_day
from colony.acts.health.holds import hold
from colony.acts.litters.edit import edit_litter
from colony.acts.pups.forecast import PupForecast, draw_forecast, forecast_pup, off_curves
from colony.acts.pups.ready import count_by_week, ready_pups
from colony.notation.fields.facts import AnimalFacts, LitterFacts
from colony.planning.pups.readiness import Readiness
from colony.refusals.animals import NotHere
from colony.refusals.exchange import WouldOverwrite
from colony.refusals.pups import NothingToForecast
from colony.store.book import Book


@pytest.fixture
def house(book: Book) -> GrowingHouse:
    """A litter of four, nine weeks old, that eats and grows; 26-01-1 is a female."""
    house = furnished(book)
    tags = house.litter("Alma", "2F2M", 63, "P1")
    for n, tag in enumerate(tags):
        for weeks, width in ((8, 135), (4, 150), (0, 164)):
            house.measure(tag, width + n, 7 * weeks)
        house.fed(tag, 30)
    return house


def pups(house: GrowingHouse, **facts: Any) -> dict[str, Readiness]:  # noqa: ANN401 - as the act has them
    """Every pup by tag."""
    found = house.ask(ready_pups, everybody=True, today=TODAY, **facts)
    return {one.tag: one for one in found}


def forecast(house: GrowingHouse, tag: str, weeks: int = 8) -> PupForecast:
    """What the forecast tells."""
    told: PupForecast = house.ask(forecast_pup, tag=tag, weeks=weeks, today=TODAY)[0]
    return told


def test_a_litter_that_passed_every_gate_is_ready(house: GrowingHouse) -> None:
    """Nine weeks, over 12 cm, two foods for 30 days: all four, today."""
    ready = house.ask(ready_pups, today=TODAY)
    assert len(ready) == 4
    assert {one.expected_ready for one in ready} == {TODAY}
    assert ready[0].age_days == 63


def test_the_rules_of_a_species_are_followed_everywhere(house: GrowingHouse) -> None:
    """Ready at 20 cm: no pup today, a later date, another line in the picture, and the day."""
    assert len(house.ask(state_of_the_day, today=TODAY).ready) == 4
    house.do(set_trait, name="leopoldi", trait="ready_width_mm", number=200, source="own practice")
    assert house.ask(ready_pups, today=TODAY) == []
    assert house.ask(state_of_the_day, today=TODAY).ready == ()
    pup = pups(house)["26-01-1"]
    assert pup.waiting_on == ("width",)
    assert pup.expected_ready is not None and pup.expected_ready > TODAY  # noqa: PT018 - one date
    _, picture = house.ask(forecast_pup, tag="26-01-1", weeks=8, today=TODAY)
    assert picture.wanted_mm == 200
    assert forecast(house, "26-01-1").expected_ready == pup.expected_ready


@pytest.mark.parametrize(
    ("trait", "number", "gate"),
    [
        ("ready_age_days", 100, "age"),
        ("ready_foods", 3, "feeding"),
        ("ready_feeding_days", 31, "feeding"),
    ],
)
def test_each_number_of_the_rules_is_the_species(
    house: GrowingHouse, trait: str, number: float, gate: str
) -> None:
    """A stricter rule closes its gate and no other."""
    house.do(set_trait, name="leopoldi", trait=trait, number=number, source="own practice")
    assert {pup.waiting_on for pup in pups(house).values()} == {(gate,)}


def test_the_gates_of_age_and_width_can_be_overridden(house: GrowingHouse) -> None:
    """Asked for 10 weeks or 17 cm, other pups are ready than by the species."""
    assert house.ask(ready_pups, min_age_days=70, today=TODAY) == []
    wide = house.ask(ready_pups, min_width_mm=166, today=TODAY)
    assert {one.disc_width_mm for one in wide} == {166, 167}


def test_a_hold_closes_its_gate_and_a_reservation_too(house: GrowingHouse) -> None:
    """Held with no known end, or spoken for: nobody can say when."""
    house.do(hold, tag="26-01-1", why="a sore", on=TODAY, today=TODAY)
    house.do(edit_animal, tag="26-01-2", facts=AnimalFacts(reserved_for="A. N."), today=TODAY)
    found = pups(house)
    assert found["26-01-1"].waiting_on == ("no_hold",)
    assert found["26-01-2"].waiting_on == ("not_reserved",)
    assert found["26-01-1"].expected_ready is None


def test_a_hold_frees_its_pup_on_the_day_it_ends(house: GrowingHouse) -> None:
    """The end is the first day without it, as in every other answer."""
    end = TODAY + timedelta(days=5)
    house.do(_hold_until, tag="26-01-1", ended=end)
    assert pups(house)["26-01-1"].expected_ready == end


def test_a_mended_birth_moves_the_age_gate(house: GrowingHouse) -> None:
    """Born three weeks later than written: not old enough, and ready on the day it is six weeks."""
    (pup,) = house.litter("Bella", "1F", 60, "P2")
    house.fed(pup, 30)
    house.measure(pup, 155)
    corrections = LitterFacts(born=ago(35))
    house.do(edit_litter, code=pup.rpartition("-")[0], corrections=corrections, today=TODAY)
    found = pups(house)[pup]
    assert found.waiting_on == ("age",)
    assert found.expected_ready == ago(35) + timedelta(days=42)


def test_a_slip_of_the_tape_opens_no_gate(house: GrowingHouse) -> None:
    """A width that later ones contradict is no width: the pup is still too narrow."""
    (small,) = house.litter("Bella", "1F", 60, "P2")
    house.fed(small, 30)
    for days, width in ((50, 100), (40, 104), (30, 180), (20, 108), (10, 112)):
        house.measure(small, width, days)
    assert small not in {one.tag for one in house.ask(ready_pups, today=TODAY)}
    assert pups(house)[small].waiting_on == ("width",)
    assert forecast(house, small).doubtful == [{"on": ago(30), "disc_width_mm": 180}]


def test_the_coming_weeks_count_every_pup_that_can_be_dated_once(house: GrowingHouse) -> None:
    """Four now; a younger litter in the week it turns six weeks old; the sum is all of them."""
    young = house.litter("Bella", "1F1M", 20, "P2")
    for tag in young:
        house.measure(tag, 140)
        house.fed(tag, 10)
    weeks = count_by_week(house.ask(ready_pups, everybody=True, today=TODAY), today=TODAY)
    assert [week.pups for week in weeks] == [4, 0, 0, 2, *[0] * 8]
    assert {(count.species, count.sex, count.pups) for count in weeks[0].counts} == {
        ("leopoldi", "F", 2),
        ("leopoldi", "M", 2),
    }


def test_a_forecast_starts_at_the_pup_and_never_falls(house: GrowingHouse) -> None:
    """From its last width on, week by week, likely between low and high."""
    told = forecast(house, "26-01-2", weeks=26)
    assert len(told.forecast) == 27
    assert told.litter == "26-01"
    assert [one["on"] for one in told.forecast[:2]] == [TODAY, TODAY + timedelta(days=7)]
    assert abs(told.forecast[0]["disc_width_mm"] - 165) <= 4
    for key in ("low_mm", "disc_width_mm", "high_mm"):
        widths = [one[key] for one in told.forecast]
        assert widths == sorted(widths)
    assert all(o["low_mm"] <= o["disc_width_mm"] <= o["high_mm"] for o in told.forecast)


def test_a_mended_width_moves_the_forecast(house: GrowingHouse) -> None:
    """The last width was 20 mm more than written: so is the forecast, about."""
    before = forecast(house, "26-01-1").forecast[-1]["disc_width_mm"]
    house.measure("26-01-1", 184)
    assert forecast(house, "26-01-1").forecast[-1]["disc_width_mm"] > before + 15


def test_a_pup_never_measured_is_forecast_from_its_birth(house: GrowingHouse) -> None:
    """One date is enough; with neither birth nor width there is nothing to forecast from."""
    (pup,) = house.litter("Bella", "1F", 20, "P2")
    told = forecast(house, pup)
    assert told.measured == []
    assert told.forecast[-1]["disc_width_mm"] > told.forecast[0]["disc_width_mm"]
    house.do(_add_stranger)
    with pytest.raises(NothingToForecast):
        forecast(house, "Nobody")


def test_one_that_left_is_not_forecast(house: GrowingHouse) -> None:
    """It grows elsewhere."""
    house.do(end_animal, tag="26-01-1", how="sold", on=TODAY, today=TODAY)
    with pytest.raises(NotHere):
        forecast(house, "26-01-1")


def test_a_pup_off_its_curve_is_called_out_until_it_is_mended(house: GrowingHouse) -> None:
    """One stood still for eight weeks: it is on the list, in its forecast and in the day."""
    assert house.ask(off_curves, today=TODAY) == []
    (still, *_) = tags = house.litter("Bella", "3F", 80, "P2")
    for tag in tags:
        for weeks, width in ((8, 140), (4, 156), (0, 172)):
            house.measure(tag, 141 if tag == still and width > 141 else width, 7 * weeks)
    (off, *_) = house.ask(off_curves, today=TODAY)
    assert (off.tag, off.kind) == (still, "stands still")
    assert off.sentence in forecast(house, still).off_curve
    assert still in {one.tag for one in house.ask(state_of_the_day, today=TODAY).off_curve}
    house.measure(still, 157, 28)
    house.measure(still, 171)
    assert house.ask(off_curves, today=TODAY) == []
    assert house.ask(state_of_the_day, today=TODAY).off_curve == ()


def test_the_curve_is_drawn_whole_and_replaces_nothing_unasked(
    house: GrowingHouse, tmp_path: Path
) -> None:
    """A file that XML readers read, with the litter-mates; a file that is there is kept."""
    _, picture = house.ask(forecast_pup, tag="26-01-1", weeks=8, today=TODAY)
    path = tmp_path / "drawn" / "curve.svg"
    path.parent.mkdir()
    draw_forecast(picture, path=path, overwrite=False)
    assert ET.parse(path).getroot().tag.endswith("svg")  # noqa: S314 - our own file
    assert set(picture.mates) == {"26-01-2", "26-01-3", "26-01-4"}
    path.write_text("mine")
    with pytest.raises(WouldOverwrite):
        draw_forecast(picture, path=path, overwrite=False)
    assert path.read_text() == "mine"
    draw_forecast(picture, path=path, overwrite=True)
    assert path.read_text().startswith("<svg")
    assert [one.name for one in path.parent.iterdir()] == ["curve.svg"]


def _add_stranger(session: Session) -> None:
    add_animal(session, tag="Nobody", facts=AnimalFacts(sex="U"), today=TODAY)


def _hold_until(session: Session, tag: str, ended: date) -> None:
    row = hold(session, tag=tag, why="a sore", on=TODAY, today=TODAY)
    row.ended = ended
    session.add(row)
