"""Who is due, and in which nursery: from the records, and anew after each of them is mended."""

from dataclasses import replace
from datetime import timedelta

import pytest
from growing_house import TODAY, GrowingHouse, ago, furnished

from colony.acts.animals.species import set_trait
from colony.acts.book.settings import set_setting
from colony.acts.book.undo import undo_last
from colony.acts.litters.due import due_litters
from colony.acts.pairings.pairings import start_pairing
from colony.acts.tanks.tanks import move, set_system
from colony.store.book import Book


@pytest.fixture
def house(book: Book) -> GrowingHouse:
    """A house of two dams."""
    return furnished(book)


def test_a_dam_seen_mating_is_expected_and_has_a_nursery_to_prepare(house: GrowingHouse) -> None:
    """Six weeks before the shortest gestation (90 days) the filter is set up, in a free nursery.

    Unseen matings (1 in 10) may move the day by a few.
    """
    house.mated("Alma", "Bruno", 100)
    due = house.due()["Alma"]
    assert due.state == "expected"
    assert due.earliest < due.likely < due.latest
    shortest = ago(100) + timedelta(days=90)
    assert abs(due.nursery - (shortest - timedelta(weeks=6))) <= timedelta(days=3)
    assert (due.nursery_tank, due.warnings) == ("P1", ())
    assert due.sires == ["Bruno"]


def test_only_kept_with_a_male_is_possible_and_claims_no_nursery(house: GrowingHouse) -> None:
    """It is shown, and takes no tank from a litter that is sure to come."""
    house.mated("Bella", "Bruno", 100)
    house.separated("Bella", 90)
    house.do(start_pairing, dam="Alma", sires=["Bruno"], on=ago(60), today=TODAY)
    due = house.due()
    assert (due["Alma"].state, due["Alma"].nursery_tank) == ("possible", None)
    assert due["Bella"].nursery_tank == "P1"


def test_nothing_seen_changes_nothing_and_a_finding_does(house: GrowingHouse) -> None:
    """To see nothing is never "not pregnant"; found pregnant confirms."""
    house.mated("Alma", "Bruno", 100)
    before = house.due()["Alma"]
    house.found("Alma", "nothing seen")
    assert house.due()["Alma"] == before
    house.found("Alma", "pregnant", 3)
    assert house.due()["Alma"].state == "confirmed"


@pytest.mark.parametrize("end", ["false alarm", "aborted"])
def test_a_false_alarm_or_an_abortion_ends_the_wait_and_undo_resumes_it(
    house: GrowingHouse, end: str
) -> None:
    """The dam is no longer expected, her nursery is free for another; undone, all is as before."""
    house.mated("Alma", "Bruno", 120)
    house.mated("Bella", "Bruno", 100)
    house.separated("Alma", 100)
    before = house.due()
    assert (before["Alma"].nursery_tank, before["Bella"].nursery_tank) == ("P1", "P2")
    house.found("Alma", end)
    after = house.due()
    assert "Alma" not in after or after["Alma"].state == "possible"
    assert after["Bella"].nursery_tank == "P1"
    house.do(undo_last)
    assert house.due() == before


def test_past_every_likely_day_the_litter_is_overdue(house: GrowingHouse) -> None:
    """Mated 200 days ago, P. leopoldi carries 180 at most: overdue, and still expected."""
    house.mated("Alma", "Bruno", 200)
    due = house.due()["Alma"]
    assert due.state == "overdue"
    assert due.earliest >= TODAY


def test_two_litters_that_want_one_nursery_are_warned_of(house: GrowingHouse) -> None:
    """With one nursery in use both dams are named; with two nobody is."""
    house.mated("Alma", "Bruno", 120)
    house.mated("Bella", "Bruno", 118)
    assert [one.warnings for one in house.due().values()] == [(), ()]
    house.do(set_setting, key="nursery_stay_days", value="60")
    house.tank("P3", "nursery")
    house.animal("Thea", "F", "P2")
    house.animal("Cora", "F", "P3")
    due = house.due()
    assert due["Alma"].nursery_tank == due["Bella"].nursery_tank == "P1"
    (said,) = due["Alma"].warnings
    assert said in due["Bella"].warnings
    assert "Alma" in said and "Bella" in said and "P1" in said  # noqa: PT018 - one sentence


def test_pups_still_in_a_nursery_are_in_the_way_until_their_stay_is_over(
    house: GrowingHouse,
) -> None:
    """A nursery with a young litter is free after the stay, a setting; then it warns no more."""
    house.litter("Bella", "2F", 10, "P1")
    house.litter("Alma", "2F", 5, "P2")
    house.animal("Cora", "F", "B1")
    house.mated("Cora", "Bruno", 160)
    cora = house.due()["Cora"]
    assert cora.nursery_tank == "P1"
    assert str(ago(10) + timedelta(days=42)) in cora.warnings[0]
    house.do(set_setting, key="nursery_stay_days", value="10")
    assert house.due()["Cora"].warnings == ()


def test_a_nursery_whose_filter_is_new_is_not_free_yet(house: GrowingHouse) -> None:
    """Its filter began today and matures in six weeks; the litter may come before."""
    house.do(set_system, name="nursery", started=TODAY)
    house.mated("Alma", "Bruno", 160)
    assert str(TODAY + timedelta(weeks=6)) in house.due()["Alma"].warnings[0]
    house.do(set_system, name="nursery", started=ago(42))
    assert house.due()["Alma"].warnings == ()


def test_a_dam_already_in_a_nursery_bears_there(house: GrowingHouse) -> None:
    """She is her own reason to be there, not somebody in the way."""
    house.mated("Alma", "Bruno", 160)
    house.do(move, tags=["Alma"], tank="P2", on=TODAY, anyway=True, today=TODAY)
    due = house.due()["Alma"]
    assert (due.nursery_tank, due.warnings) == ("P2", ())


def test_a_birth_on_record_moves_the_next_window(house: GrowingHouse) -> None:
    """Bella carried 150 days after a copulation seen: Alma is expected sooner than by the species."""
    house.mated("Alma", "Bruno", 60)
    before = house.due()["Alma"]
    house.mated("Bella", "Bruno", 400)
    house.separated("Bella", 395)
    house.litter("Bella", "2F", 400 - 150)
    after = house.due()["Alma"]
    assert after.likely < before.likely
    assert "1 of the colony's" in after.basis


def test_a_short_pairing_without_a_sign_is_evidence_too(house: GrowingHouse) -> None:
    """Together for ten days only: conceived then."""
    house.mated("Alma", "Bruno", 60)
    before = house.due()["Alma"]
    house.do(start_pairing, dam="Bella", sires=["Bruno"], on=ago(400), today=TODAY)
    house.separated("Bella", 390)
    house.litter("Bella", "2F", 400 - 150)
    assert house.due()["Alma"].likely < before.likely


def test_a_mended_life_history_is_followed(house: GrowingHouse) -> None:
    """The species' gestation is set anew: every date moves."""
    house.mated("Alma", "Bruno", 20)
    before = house.due()["Alma"]
    for trait, days in (("low", 80), ("likely", 100), ("high", 120)):
        house.do(
            set_trait,
            name="leopoldi",
            trait=f"gestation_{trait}_days",
            number=days,
            source="own records",
        )
    after = house.due()["Alma"]
    assert abs(after.likely - (ago(20) + timedelta(days=100))) <= timedelta(days=2)
    assert after.nursery < before.nursery


def test_the_answer_is_the_same_each_time(house: GrowingHouse) -> None:
    """No chance and no order of reading is in it."""
    for dam in ("Alma", "Bella"):
        house.mated(dam, "Bruno", 120)
    first = house.ask(due_litters, today=TODAY)
    assert first == house.ask(due_litters, today=TODAY)
    assert [replace(one, warnings=()) for one in first] == first
