"""Every form, filled with keys, writes what was typed; and says under the field what is wrong."""

from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from screens_house import TODAY, act, ask, drive, press, settle, shown, text_after
from textual.events import Key
from textual.pilot import Pilot

from colony.acts.animals.animals import edit_animal
from colony.acts.animals.page import AnimalDetails, show_animal
from colony.acts.book.history import list_history
from colony.acts.orders.buyers import list_buyers
from colony.acts.orders.orders import OrderPage, show_order
from colony.acts.pairings.listing import list_pairings
from colony.acts.pups.ready import ready_pups
from colony.acts.tanks.isolation import isolation_now
from colony.acts.tanks.loads import list_tanks
from colony.notation.fields.facts import AnimalFacts
from colony.screens.app import ColonyApp
from colony.screens.forms.table import FORMS
from colony.screens.loaders import FORM_CLASSES
from colony.screens.widgets.entry_list import EntryList
from colony.store.readers.orders.details import ShipmentRow


def page(path: Path, tag: str) -> AnimalDetails:
    """An animal as the book has it."""
    return ask(path, show_animal, tag=tag, today=TODAY)


def order_of(path: Path) -> OrderPage:
    """How the order that was written here stands."""
    return ask(path, show_order, order="14", today=TODAY).page


Written = Callable[[Path], object]

DAY: list[tuple[str, list[str], Written, object]] = [
    (
        "arrival",
        ["n", "type:Zora", "enter", "type:moto", "enter", "f", "enter"],
        lambda path: (page(path, "Zora").facts["species"], page(path, "Zora").facts["sex"]),
        ("motoro", "F"),
    ),
    (
        "correct",
        ["d", "type:zora", "enter", "y", "enter"],
        lambda path: page(path, "Zora").facts["held_back"],
        True,
    ),
    (
        "hold",
        ["h", "type:zora", "enter", "type:cloudy eye", "enter"],
        lambda path: page(path, "Zora").holds[-1]["why"],
        "cloudy eye",
    ),
    (
        "release",
        ["H", "type:zora", "enter"],
        lambda path: page(path, "Zora").holds[-1]["to"],
        TODAY,
    ),
    (
        "fed",
        ["f", "type:zora", "enter", "type:prawn", "enter", "escape"],
        lambda path: page(path, "Zora").feedings[-1],
        {"on": TODAY, "food": "prawn", "took": True},
    ),
    (
        "tank",
        [
            "T",
            "type:X1",
            "enter",
            "type:north",
            "enter",
            "type:nurs",
            "tab",
            "type:2m",
            "tab",
            "type:1m",
            "enter",
        ],
        lambda path: [one.role for one in ask(path, list_tanks, today=TODAY) if one.tank == "X1"],
        ["nursery"],
    ),
    (
        "move",
        ["m", "type:zora", "enter", "type:x1", "enter", "type:the intake is full", "f2"],
        lambda path: page(path, "Zora").tank,
        "X1",
    ),
    (
        "widths",
        ["w", "type:zora", "enter", "type:5in", "enter", "escape"],
        lambda path: page(path, "Zora").widths[-1]["disc_width_mm"],
        127,
    ),
    (
        "join",
        ["j", "type:zora", "enter", "type:rufus", "enter", "type:a trial of forms", "f2"],
        lambda path: [
            one.sires for one in ask(path, list_pairings, today=TODAY) if one.dam == "Zora"
        ],
        [["Rufus"]],
    ),
    (
        "sign",
        ["s", "type:zora", "enter", "b", "enter"],
        lambda path: [
            one.signs for one in ask(path, list_pairings, today=TODAY) if one.dam == "Zora"
        ],
        [[f"{TODAY} bite marks"]],
    ),
    (
        "check",
        ["k", "type:zora", "enter", "type:preg", "enter"],
        lambda path: ask(path, list_history, most=1)[0].summary,
        "Zora: pregnant",
    ),
    (
        "part",
        ["x", "type:zora", "enter"],
        lambda path: [
            one.ended
            for one in ask(path, list_pairings, all_=True, today=TODAY)
            if one.dam == "Zora"
        ],
        [TODAY],
    ),
    (
        "birth",
        ["b", "type:alma", "enter", "type:0", "tab", "tab", "type:1", "enter"],
        lambda path: ask(path, list_history, most=1)[0].summary[:9],
        "Alma bore",
    ),
    (
        "buyer",
        ["B", "type:carla reed", "enter"],
        lambda path: [row.name for row in ask(path, list_buyers)][-1],
        "carla reed",
    ),
    (
        "order",
        ["N", "type:carla", "enter", "type:1f motoro, 250 each", "enter", "escape"],
        lambda path: order_of(path).want,
        "1F motoro, 250 each",
    ),
    (
        "paid",
        ["P", "type:14", "enter", "type:50", "enter"],
        lambda path: order_of(path).paid,
        50,
    ),
    (
        "keep",
        ["K", "type:zora", "enter", "type:14", "enter", "type:they may wait", "f2"],
        lambda path: order_of(path).tags,
        ["Zora"],
    ),
    (
        "ship",
        ["S", "type:14", "tab", "type:in 3d", "enter"],
        lambda path: ask(path, show_order, order="14", today=TODAY).shipment,
        ShipmentRow(TODAY + timedelta(days=3), 24, None, None, None),
    ),
    (
        "over",
        ["C", "type:14", "tab", "type:canc", "enter", "enter"],
        lambda path: order_of(path).state,
        "cancelled",
    ),
    (
        "end",
        ["e", "type:zora", "enter", "type:di", "tab", "tab", "type:found dead", "enter", "enter"],
        lambda path: (page(path, "Zora").facts["status"], page(path, "Zora").facts["ended_why"]),
        ("died", "found dead"),
    ),
]


def test_each_form_writes_what_was_typed(farm: Path) -> None:
    """One animal's life, every form in its turn; after each the book holds what it says."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "8")
        for name, keys, written, right in DAY:
            await press(app, pilot, *keys)
            assert written(farm) == right, f"{name}: {shown(app)}"

    drive(farm, look=look)
    elsewhere = {"partners", "skip", "count", "meal", "test", "answer"}
    assert {name for name, *_ in DAY} == set(FORMS) - elsewhere


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        (["b", "type:alma", "tab", "type:2f2f"], "write each sex once"),
        (["b", "type:almo"], "did you mean Alma"),
        (["b", "type:al"], "→ Alma"),
        (["w", "type:alma", "tab", "type:12ells"], "unit"),
        (["w", "type:alma", "tab", "type:5in"], "= 12.7 cm"),
        (
            ["b", "type:alma", "tab", "tab", "type:3d ago"],
            f"= {TODAY - timedelta(days=3):%a} 27 Feb",
        ),
        (["e", "type:alma", "tab", "type:eaten"], "sold, died or gone"),
        (["b", "type:bruno"], "! Bruno is male and cannot be a dam"),
        (["j", "type:alma", "enter", "type:bruno edda"], "! Edda is female and cannot be a sire"),
        (["b", "type:alma", *["tab"] * 4, "type:bruno=0,7 caro=0,3"], "= 2 possible sires"),
        (["b", "type:alma", "tab", "tab", "type:in 3d"], "in the future: today is"),
        (["m", "type:alma", "enter", "type:g1"], "= grow-out, L64-1, L64-2, 2% of its floor"),
        (["x", "type:dunja", "enter"], "start one (press j for Join)."),
        (["x", "type:dunja", "enter"], "Correct Dam ·"),
    ],
)
def test_a_field_speaks_while_one_types(sample: Path, keys: list[str], said: str) -> None:
    """What is wrong, what it may become, and how it was understood stands under the field."""
    assert said in " ".join(text_after(sample, "8", *keys).split())


def test_escape_asks_before_typed_work_is_thrown_away(farm: Path) -> None:
    """The first Esc asks, typing goes on; only two in a row close the form, and nothing is written."""
    asked = text_after(farm, "8", "b", "type:alma", "escape")
    assert "Esc again throws it away" in asked
    kept = text_after(farm, "8", "b", "type:alma", "escape", "x", "escape")
    assert "Esc again throws it away" in kept
    closed = text_after(farm, "8", "b", "type:alma", "escape", "escape")
    assert "Birth" not in closed.splitlines()[-8]
    assert ask(farm, list_history, most=1)[0].act == "sample"


def test_an_untouched_form_closes_at_once(sample: Path) -> None:
    """Esc in a form in which nothing was typed asks nothing."""
    assert "Dam *" not in text_after(sample, "8", "b", "escape")


def test_a_refusal_stands_at_its_field_and_a_limit_can_be_overridden(farm: Path) -> None:
    """A tank that is too small says so at the tank; F2 moves anyway and says what broke."""
    refused = text_after(farm, "8", "m", "type:alma", "enter", "type:g1", "enter")
    assert "! Tank G1 does not take this" in " ".join(refused.split())
    assert page(farm, "Alma").tank == "N1"
    keys = ["m", "type:alma", "enter", "type:g1", "enter", "f2"]
    assert "Alma: due about" in " ".join(text_after(farm, "8", *keys).split())
    moved = text_after(farm, "8", *keys, "type:the heater failed", "f2")
    assert "Alma moved to G1" in moved
    assert page(farm, "Alma").tank == "G1"


def test_isolation_ends_early_only_with_a_reason(farm: Path) -> None:
    """F2 past the limits asks why at its own field; F2 again then moves, and the reason is kept."""
    moved = ["m", "type:dante", "enter", "type:n3", "enter", "f2"]
    assert "write why, then press F2" in " ".join(text_after(farm, "8", *moved).split())
    assert page(farm, "Dante").tank == "I1"
    drive(farm, "8", *moved, "type:the heater failed", "f2")
    assert page(farm, "Dante").tank == "N3"
    left = ask(farm, isolation_now, today=TODAY).left_early
    assert ("Dante", "the heater failed") in {(one.tag, one.why) for one in left}


def test_a_reason_is_asked_for_when_animals_are_carried_out_of_isolation(farm: Path) -> None:
    """In the house F2 brings the form with the animals, the tank and room for the reason."""
    text = text_after(farm, "6", "c", "down", "down", "down", "f2")
    assert "Dante, Rhea" in text
    assert "Why " in text
    assert page(farm, "Dante").tank == "I1"


def test_tags_with_spaces_stay_whole(farm: Path) -> None:
    """A tag may hold a space: alone, and beside others."""
    facts = AnimalFacts(tag="Big Mo")
    act(farm, "animal edit", edit_animal, tag="L58-5", facts=facts, today=TODAY)
    drive(farm, "8", "m", "type:big mo, l58-6", "enter", "type:g4", "enter")
    assert [page(farm, tag).tank for tag in ("Big Mo", "L58-6")] == ["G4", "G4"]


def test_marks_go_with_what_was_done(farm: Path) -> None:
    """Marked pups lose their marks one by one as they are measured; the others keep theirs."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        first, second = (one.about.tag for one in app.screen.query_one(EntryList).marked)
        await press(app, pilot, "w", "type:18.7", "enter", "escape")
        assert [one.about.tag for one in app.screen.query_one(EntryList).marked] == [second]
        marks = [line[0] for line in shown(app).splitlines() if first in line or second in line]
        assert marks[:2] == ["●", "+"]

    drive(farm, "5", "space", "space", look=look)


def test_f1_explains_a_form_and_leads_back_to_it(sample: Path) -> None:
    """What is typed is still there when the page of keys is closed."""
    assert "A star marks a field" in text_after(sample, "8", "b", "type:edd", "f1")
    assert "→ Edda" in text_after(sample, "8", "b", "type:edd", "f1", "escape")


def test_widths_go_on_with_the_next_pup_of_the_list(farm: Path) -> None:
    """In the grow-out list: w, then width and Enter for each pup; the tags come by themselves."""
    drive(farm, "5", "w", "type:18.7", "enter", "type:7.4in", "enter", "escape")
    newest = [one.summary for one in ask(farm, list_history, most=2)]
    pups = ready_order(farm)
    assert newest == [f"{pups[1]} measured 18.8 cm", f"{pups[0]} measured 18.7 cm"]


def test_widths_go_on_from_tank_to_tank_and_stay_in_sight(farm: Path) -> None:
    """In the order of tanks G2 comes before G10; what is odd is asked about, and still seen after."""
    keys = ["5", "o", "home", "w", "type:16", "enter", "type:17", "enter", "type:9", "enter"]
    seen: list[str] = []

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, *keys)
        seen.append(" ".join(shown(app).split()))
        await press(app, pilot, "f2")
        seen.append(" ".join(shown(app).split()))

    drive(farm, look=look)
    asked, text = seen
    assert "rays do not shrink (press F2)" in asked
    newest = [one.summary for one in ask(farm, list_history, most=3)]
    tanks = [page(farm, one.split()[0]).tank for one in newest]
    assert tanks == ["G2", "G1", "G1"]
    assert "rays do not shrink" in text
    assert all(one.split()[0] in text for one in newest)


def ready_order(path: Path) -> list[str]:
    """The first pups of the ready list."""
    return [one.tag for one in ask(path, ready_pups, today=TODAY)]


def test_what_somebody_else_changed_meanwhile_is_not_overwritten(farm: Path) -> None:
    """A form that was opened before another process changed the same fact is refused, and told."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> str:
        await press(app, pilot, "8", "d", "type:alma", *["tab"] * 6, "type:Al")
        act(
            farm,
            "animal edit",
            edit_animal,
            tag="Alma",
            facts=AnimalFacts(name="Alma II"),
            today=TODAY,
        )
        await press(app, pilot, "enter")
        return shown(app)

    text: Any = drive(farm, look=look)
    assert "Alma II" in " ".join(text.split())
    assert page(farm, "Alma").facts["name"] == "Alma II"


def test_what_somebody_else_wrote_is_not_taken_back_unseen(farm: Path) -> None:
    """Right after another process wrote, u is refused and says so; once known, it is taken back."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        facts = AnimalFacts(name="Alma II")
        act(farm, "animal edit", edit_animal, tag="Alma", facts=facts, today=TODAY)
        await press(app, pilot, "u")
        assert "Somebody else changed this meanwhile" in " ".join(shown(app).split())
        app.book_session.news()
        await press(app, pilot, "u")

    before = page(farm, "Alma").facts["name"]
    drive(farm, "8", look=look)
    assert page(farm, "Alma").facts["name"] == before
    assert [one.act for one in ask(farm, list_history, most=2)] == ["undo", "animal edit"]


def test_keys_typed_ahead_of_a_form_go_into_it(farm: Path) -> None:
    """On a slow machine the pups are typed before the form is there: not one key is lost."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        for key in ("p", "a", "l", "m", "a"):
            app.post_message(Key(key, key))
        app.post_message(Key("enter", None))
        await settle(app, pilot)
        await settle(app, pilot)
        assert "Partners of Alma" in shown(app)

    drive(farm, "8", look=look)


def test_every_form_names_its_fields_and_act() -> None:
    """Each form loads, has fields of different names, and an act for the journal."""
    for name, entry in FORMS.items():
        form = FORM_CLASSES[name]()
        names = [field.name for field in form.FIELDS]
        assert names
        assert len(set(names)) == len(names)
        assert entry.act == form.ACT
        assert form.ACT or name == "partners"


def test_days_are_read_from_the_day_it_is_in_the_house(sample: Path) -> None:
    """Today is the clock of the book_session, not of the machine that runs a test."""
    assert date(2026, 3, 2) == TODAY
    assert "Mon 2 Mar 2026" in text_after(sample, "8", "b")
