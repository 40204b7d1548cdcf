"""The house's own tasks: on the list, due, ticked off with what to mind, and gone again."""

import pytest
from care_house import TODAY, CareHouse, ago, care_house

from colony.acts.care.rhythms import Where, begin_round, list_rhythms, set_rhythm
from colony.acts.care.round import skip, tick
from colony.acts.care.tasks import drop_task, list_tasks, set_task
from colony.acts.care.work import todays_round
from colony.refusals.care import NotAnOwnTask, TaskIsFixed, TaskTakesValue, WrongPlaceForTask
from colony.refusals.notation import UnknownWord
from colony.store.book import Book

MIND = "Wet hands; the animal stays under water."


@pytest.fixture
def house(book: Book) -> CareHouse:
    """A house with the usual rhythms and a task of its own."""
    built = care_house(book)
    built.do(begin_round, today=ago(3))
    built.do(set_task, name="Gill  check", caution=MIND)
    return built


def places(house: CareHouse, task: str) -> set[str]:
    """Where a task is due today."""
    return {line.place for line in house.ask(todays_round, today=TODAY) if line.task == task}


def test_an_own_task_is_due_and_done_like_any_other(house: CareHouse) -> None:
    """It has a rhythm, is due at tanks with animals, and says what to mind when it is ticked."""
    assert places(house, "gill check") == set()
    house.do(set_rhythm, task="gill check", where=Where(), every_days=14, today=TODAY)
    due = places(house, "gill check")
    assert due == places(house, "headcount")
    assert {
        line.caution for line in house.ask(todays_round, today=TODAY) if line.task == "gill check"
    } == {MIND}
    ticked = house.do(tick, task="gill", places=["all"], on=TODAY, today=TODAY)
    assert (set(ticked.places), ticked.cautions) == (due, (MIND,))
    assert not any(
        line.is_open for line in house.ask(todays_round, today=TODAY) if line.task == "gill check"
    )


def test_an_own_task_of_a_system_is_done_once_for_it(house: CareHouse) -> None:
    """A rhythm of it for one tank is refused, as of a usual one."""
    house.do(set_task, name="lamp change", per="system")
    with pytest.raises(WrongPlaceForTask):
        house.do(set_rhythm, task="lamp change", where=Where(tank="A1"), today=TODAY)
    house.do(set_rhythm, task="lamp change", where=Where(), every_days=90, today=TODAY)
    assert places(house, "lamp change") == {
        line.system for line in house.ask(todays_round, today=TODAY)
    }


def test_a_usual_task_takes_a_caution_and_nothing_else(house: CareHouse) -> None:
    """It stays where it is, and a headcount still takes its number."""
    house.do(set_task, name="headcount", caution="Twice.")
    with pytest.raises(TaskIsFixed):
        house.do(set_task, name="headcount", per="system")
    with pytest.raises(TaskIsFixed):
        house.do(set_task, name="All")
    with pytest.raises(TaskTakesValue):
        house.do(tick, task="headcount", places=["all"], on=TODAY, today=TODAY)
    assert [x.caution for x in house.ask(list_tasks) if x.task == "headcount"] == ["Twice."]
    house.do(set_task, name="headcount", caution="")
    assert [x.caution for x in house.ask(list_tasks) if x.task == "headcount"] == [None]


def test_a_dropped_task_takes_its_rhythm_along(house: CareHouse) -> None:
    """What was done stays written; a usual task is not dropped but loses its rhythm."""
    house.do(set_rhythm, task="gill check", where=Where(), every_days=14, today=TODAY)
    house.do(tick, task="gill check", places=["A1"], on=TODAY, today=TODAY)
    house.do(drop_task, name="gill check")
    assert "gill check" not in {line.task for line in house.ask(list_rhythms)}
    assert places(house, "gill check") == set()
    with pytest.raises(UnknownWord):
        house.do(skip, task="gill check", places=["A1"], why="gone", on=TODAY, today=TODAY)
    with pytest.raises(NotAnOwnTask):
        house.do(drop_task, name="sock check")
