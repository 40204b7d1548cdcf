"""Every place at two sizes as text on file, and what one does in each."""

import os
import re
import threading
from itertools import groupby
from pathlib import Path

import pytest
from screens_house import SMALL, TODAY, WIDE, act, ask, drive, press, settle, shown, text_after
from textual.geometry import Size
from textual.pilot import Pilot

from colony.acts.animals.animals import edit_animal
from colony.acts.animals.page import show_animal
from colony.acts.animals.search import PAGE_LINES, AnimalFilter, search_animals
from colony.acts.book.history import list_history
from colony.acts.care.rhythms import list_rhythms
from colony.acts.care.work import WorkLine, todays_round
from colony.acts.pairings.listing import list_pairings
from colony.acts.tanks.loads import list_tanks
from colony.acts.tanks.moves import list_moves
from colony.notation.care import TASKS
from colony.notation.fields.facts import AnimalFacts
from colony.planning.care.round import USUAL
from colony.screens.app import ColonyApp
from colony.screens.widgets.entry_list import EntryList, Line
from colony.screens.widgets.tank_box import TankBox
from colony.screens.widgets.top_line import LONG_SECONDS
from colony.store.book import begin_book

SNAPSHOTS = Path(__file__).parent / "snapshots"
UPDATE = "COLONY_UPDATE_SNAPSHOTS"
"""Set this to write the snapshots anew; then look at them before they are committed."""

SEEN = {
    "today": ["1"],
    "rays": ["2"],
    "births": ["3"],
    "pairs": ["4"],
    "pups": ["5", "rest"],
    "house": ["6"],
    "round": ["7"],
    "log": ["8"],
    "sales": ["9"],
    "order": ["9", "down", "enter", "rest"],
    "kin": ["5", "space", "down", "space", "g"],
    "ray": ["2", "type:alma", "enter"],
    "litter": ["3", "end", "enter"],
    "tank": ["6", "enter"],
    "partners": ["p", "type:alma", "enter"],
    "moves": ["6", "g"],
    "pairing-plan": ["4", "g"],
    "birth-form": ["8", "b", "type:al"],
    "keys": ["?"],
}
"""Each place, page and kind of form, and the keys that lead there."""


def snapshot(text: str) -> str:
    """What is compared: moments of the clock do not count."""
    return re.sub(r"\d{4}-\d\d-\d\d \d\d:\d\d", "YYYY-MM-DD HH:MM", text)


@pytest.mark.parametrize("size", [SMALL, WIDE], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("place", SEEN)
def test_each_place_looks_as_it_did(sample: Path, place: str, size: tuple[int, int]) -> None:
    """The sample colony on its own day, drawn as text, is what is on file."""
    path = SNAPSHOTS / f"{place}-{size[0]}x{size[1]}.txt"
    text = snapshot(text_after(sample, *SEEN[place], size=size))
    if os.environ.get(UPDATE):
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, "utf-8")
    assert text == path.read_text("utf-8")


def test_search_finds_while_one_types_and_lists_come_in_pages(sample: Path) -> None:
    """Only a page is listed at first; the end of it brings the next; letters narrow it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        entries = app.screen.query_one(EntryList)
        await press(app, pilot, "f3")
        assert len(entries.entries) == PAGE_LINES
        await press(app, pilot, "pagedown", "pagedown", "pagedown")
        assert len(entries.entries) == 2 * PAGE_LINES
        await press(app, pilot, "type:northlight f3")
        wanted = AnimalFilter(words=("northlight", "f3"), status=None)
        found = ask(sample, search_animals, wanted=wanted, today=TODAY)
        assert [entry.about.key for entry in entries.entries] == [one.tag for one in found]  # type: ignore[union-attr]
        await press(app, pilot, "escape", "type:alm")
        assert entries.line is not None
        assert entries.line.about.key == "Alma"

    drive(sample, "2", look=look)


def test_animals_are_carried_from_tank_to_tank_by_keys(farm: Path) -> None:
    """Look into a tank, mark two, carry them; a tank that is too small says why; another takes them."""
    tanks = {one.tank: one for one in ask(farm, list_tanks, today=TODAY)}
    source = next(
        code for code, one in tanks.items() if one.role == "grow-out" and len(one.animals) > 2
    )

    async def look(app: ColonyApp, pilot: Pilot[None]) -> tuple[str, str]:
        await walk_to(app, pilot, source)
        await press(app, pilot, "enter", "space", "space", "c")
        carried = shown(app)
        await walk_to(app, pilot, "I1")
        refused = shown(app)
        free = next(c for c, one in tanks.items() if one.role == "grow-out" and not one.animals)
        await walk_to(app, pilot, free)
        await press(app, pilot, "enter")
        after = {one.tank: one for one in ask(farm, list_tanks, today=TODAY)}
        assert after[free].animals == tanks[source].animals[:2]
        return carried, refused

    seen = drive(farm, "6", look=look)
    assert seen is not None
    assert "ontainer, no" in seen[0]
    assert "I1 does not take them" in " ".join(seen[1].split())


async def walk_to(app: ColonyApp, pilot: Pilot[None], tank: str) -> None:
    """Walk from box to box with the arrows until one is reached."""
    boxes = {box.tank.tank: box for box in app.screen.query(TankBox)}
    for _ in range(100):
        here = next((box for box in boxes.values() if box.has_focus), None)
        if here is boxes[tank]:
            return
        there = boxes[tank].region
        if here is None or there.y > here.region.y:
            key = "down"
        elif there.y < here.region.y:
            key = "up"
        else:
            key = "right" if there.x > here.region.x else "left"
        await press(app, pilot, key)
    raise AssertionError(f"no way to {tank}")


def test_one_key_takes_the_last_act_back_from_anywhere(farm: Path) -> None:
    """Undo is u; in the log, z on the undo brings it back."""
    drive(farm, "e", "type:alma", "enter", "type:di", "enter", "enter")
    assert ask(farm, show_animal, tag="Alma", today=TODAY).facts["status"] == "died"
    assert "Taken back: Alma died" in text_after(farm, "3", "u")
    assert ask(farm, show_animal, tag="Alma", today=TODAY).facts["status"] == "present"
    drive(farm, "8", "z")
    assert ask(farm, show_animal, tag="Alma", today=TODAY).facts["status"] == "died"


def test_the_log_begins_with_the_newest_act(farm: Path) -> None:
    """Who comes back to the log does not undo what was looked at there before."""
    end = ["e", "type:alma", "enter", "type:di", "enter", "enter"]
    drive(farm, "8", "1", *end, "8", "z")
    assert ask(farm, show_animal, tag="Alma", today=TODAY).facts["status"] == "present"


def test_a_refusal_stays_on_the_screen_that_asked(sample: Path) -> None:
    """Nothing of it is left at the next place."""
    asked = text_after(sample, "8", "end", "z")
    assert "\n ! " in asked
    assert "\n ! " not in text_after(sample, "8", "end", "z", "4")


def test_a_planned_week_of_moves_becomes_a_work_list(farm: Path) -> None:
    """The plan's y puts its moves on the list, and today then shows them."""
    drive(farm, "6", "g", "y")
    work = ask(farm, list_moves, today=TODAY)
    assert f"Moves to make ({len(work)})" in text_after(farm, "1") or not work


def test_a_move_out_of_the_plan_leaves_the_plan(farm: Path) -> None:
    """On a line m begins with its animal and tank; once written, the plan is made anew without it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        def planned() -> list[str]:
            entries = app.screen.query_one(EntryList).entries
            return [entry.about.tag for entry in entries if isinstance(entry, Line)]

        first, *_ = planned()
        await press(app, pilot, "m", "enter", "f2")
        assert first not in planned()

    drive(farm, "6", "g", look=look)


def test_the_round_is_ticked_off_by_a_key(farm: Path) -> None:
    """Space ticks off a place, or one task of an unfolded one; A a system; z skips with a reason."""

    def work() -> list[WorkLine]:
        return ask(farm, todays_round, today=TODAY)

    def first_open(tasks: int = 1) -> tuple[list[WorkLine], list[str]]:
        """The open work of the first place that has so many tasks to do, and the way there."""
        places = [list(tasks) for _, tasks in groupby(work(), key=lambda one: one.place)]
        still = [[one for one in here if one.is_open] for here in places]
        at = next(at for at, here in enumerate(still) if len(here) >= tasks)
        return still[at], ["down"] * at

    def open_at(place: str) -> set[str]:
        return {one.task for one in work() if one.place == place and one.is_open}

    here, steps = first_open(tasks=2)
    first, *others = sorted((one.task for one in here), key=lambda task: bool(TASKS[task].takes))
    unfolded = [one.task for one in work() if one.place == here[0].place]
    one_task = ["enter", *["down"] * (1 + unfolded.index(first)), "space"]
    drive(farm, "7", *steps, *one_task)
    assert open_at(here[0].place) == set(others)
    drive(farm, "7", *steps, "z", "type:no time", "enter")
    assert ("no time", here[0].place) in {(other.skipped, other.place) for other in work()}
    here, steps = first_open()
    drive(farm, "7", *steps, "space")
    assert all(TASKS[task].takes for task in open_at(here[0].place))
    here, steps = first_open()
    drive(farm, "7", *steps, "A")
    still = {other.task for other in work() if other.system == here[0].system and other.is_open}
    assert all(TASKS[task].takes for task in still)
    before = ask(farm, list_history, most=1)
    assert "Nothing is open here" in text_after(farm, "7", *steps, "A")
    assert ask(farm, list_history, most=1) == before


@pytest.mark.parametrize(
    ("task", "typed", "written"),
    [
        ("headcount", ["type:3", "enter"], "counted 3, the book has"),
        ("feeding", ["type:shrimp", "enter"], "was offered shrimp"),
        ("water test", ["type:ph=6.9", "enter"], "ph"),
    ],
)
def test_space_brings_the_form_of_what_takes_a_value(
    farm: Path, task: str, typed: list[str], written: str
) -> None:
    """The place stands in it; what is typed is written and ticks the task off."""
    lines = ask(farm, todays_round, today=TODAY)
    places = [list(tasks) for _, tasks in groupby(lines, key=lambda one: one.place)]
    where = next(one.place for one in lines if one.task == task and one.is_open)
    at = next(at for at, here in enumerate(places) if here[0].place == where)
    unfolded = [one.task for one in places[at]]
    way = [*["down"] * at, "enter", *["down"] * (1 + unfolded.index(task)), "space"]
    drive(farm, "7", *way, *typed)
    assert written in ask(farm, list_history, most=1)[0].summary


def test_a_round_without_rhythms_begins_with_the_usual_ones(tmp_path: Path) -> None:
    """The empty round says so, and one key writes every usual rhythm."""
    new = tmp_path / "new.colony"
    begin_book(str(new)).close()
    assert "i begins with the usual ones" in text_after(new, "7")
    drive(new, "7", "i")
    assert len(ask(new, list_rhythms)) == len(USUAL)


def test_a_pairing_plan_is_changed_by_keys_and_accepted(farm: Path) -> None:
    """Space forbids the pair under the highlight, o leaves its dam out; y starts the pairings."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        entries = app.screen.query_one(EntryList)
        first, second = pairs(entries)[:2]
        await press(app, pilot, "home", "space")
        assert first not in pairs(entries)
        await press(app, pilot, "home", "o")
        dams = [dam for dam, _ in pairs(entries)]
        assert first[0] not in dams or second[0] not in dams
        planned = pairs(entries)
        await press(app, pilot, "y")
        running = {(one.dam, *one.sires) for one in ask(farm, list_pairings, today=TODAY)}
        assert set(planned) <= running

    drive(farm, "4", "g", look=look)


def pairs(entries: EntryList) -> list[tuple[str, str]]:
    """The pairs of a plan on the screen."""
    lines = [entry for entry in entries.entries if isinstance(entry, Line) and entry.mark == "●"]
    return [(line.initial["dam"], line.initial["sires"]) for line in lines]


def test_what_another_process_writes_is_noticed_and_shown(farm: Path) -> None:
    """An act from elsewhere is named in the line above the keys, and the list is read anew."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> str:
        act(
            farm,
            "animal edit",
            edit_animal,
            tag="Alma",
            facts=AnimalFacts(name="Alma II"),
            today=TODAY,
        )
        app._poll()
        await settle(app, pilot)
        return shown(app)

    text = drive(farm, "8", look=look)
    assert text is not None
    assert "→ Written elsewhere by keeper: Alma was corrected" in text
    assert text.splitlines()[2].startswith("■      3")


def test_a_click_goes_to_a_place_and_opens_a_line(sample: Path) -> None:
    """The mouse reaches the top line, every line of a list, and the keys at the bottom."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> list[str]:
        seen = []
        for offset in ((20, 0), (10, 3), (76, 23)):
            await pilot.click(offset=offset)
            await settle(app, pilot)
            seen.append(type(app.screen).__name__)
        return seen

    assert drive(sample, look=look) == ["Births", "AnimalPage", "KeysPage"]


def test_a_click_on_a_tank_looks_into_it_and_puts_down_what_is_carried(farm: Path) -> None:
    """The mouse carries too: a click on a box is Enter there."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> str:
        boxes = {box.tank.tank: box for box in app.screen.query(TankBox)}
        await pilot.click(boxes["I3"])
        await settle(app, pilot)
        return shown(app)

    assert "I3, intake" in (drive(farm, "6", look=look) or "")
    assert "Dante, Rhea moved to I3" in (drive(farm, "6", "c", look=look) or "")


def test_a_resized_screen_lays_itself_out_anew(sample: Path) -> None:
    """The pane beside the list comes when there is room for it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> tuple[bool, bool]:
        pane = app.screen.query_one("DetailPane")
        narrow = pane.display
        await pilot.resize_terminal(*Size(160, 48))
        await settle(app, pilot)
        return narrow, pane.display

    assert drive(sample, "3", look=look) == (False, True)


def test_long_reading_can_be_stopped(sample: Path) -> None:
    """While the book is read the top line says so; Esc stops it and what was there stays."""
    go_on = threading.Event()

    async def look(app: ColonyApp, pilot: Pilot[None]) -> tuple[str, str]:
        place = app.screen
        place.ask(lambda _session: go_on.wait(10), lambda _answer: app.exit())  # type: ignore[attr-defined]
        await pilot.pause(2 * LONG_SECONDS)
        reading = shown(app)
        await pilot.press("escape")
        go_on.set()
        await settle(app, pilot)
        return reading, shown(app)

    seen = drive(sample, "3", look=look)
    assert seen is not None
    assert "Esc stops" in seen[0]
    assert "Stopped reading" in seen[1]
    assert "Expected (" in seen[1]


def test_every_command_is_found_by_typing(farm: Path) -> None:
    """The palette finds a form by a word of what it does."""
    assert "Dam *" in text_after(farm, "8", "ctrl+p", "type:mating sign", "enter", "enter")
    assert "fewest" in text_after(farm, "8", "ctrl+p", "type:plan moves", "enter")


def test_the_palette_and_the_page_of_keys_know_the_keys_of_a_screen(farm: Path) -> None:
    """What only works here is found by typing too, and listed first by ``?``."""
    drive(farm, "7", "ctrl+p", "type:whole system", "enter")
    assert ask(farm, list_history, most=1)[0].act == "round done"
    assert re.search("Here *│.*\n.*Space +Mark", text_after(farm, "5", "?"))


def test_program_keys_work_while_one_searches(sample: Path) -> None:
    """No tag needs ``?`` or ``:`` to be found: they ask for the keys and all commands."""
    assert "every word has to be" in text_after(sample, "2", "type:al", "question_mark")
    assert "Search for commands" in text_after(sample, "2", "type:al", "colon")


def test_markup_and_codes_in_names_are_inert(farm: Path) -> None:
    """A tag like ``[red]X[/]`` is shown letter by letter, in lists, titles and boxes."""
    facts = AnimalFacts(tag="[red]X[/]", name="[@click=app.quit]out[/]")
    act(farm, "animal edit", edit_animal, tag="Alma", facts=facts, today=TODAY)
    page = text_after(farm, "2", "type:out", "enter")
    assert "[red]X[/]" in page.splitlines()[1]
    assert "[@click=app.quit]out[/]" in page
    assert "[red]X[/]" in text_after(farm, "3")


def test_the_book_is_not_touched_by_looking(farm: Path) -> None:
    """Walking through every place writes nothing."""
    before = ask(farm, list_history)
    drive(farm, "2", "3", "4", "5", "6", "8", "1")
    assert ask(farm, list_history) == before
