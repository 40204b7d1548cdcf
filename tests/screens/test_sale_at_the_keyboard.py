"""The question of a buyer, answered at the keyboard: who would do, how related, kept and told."""

from pathlib import Path

from screens_house import TODAY, ask, drive, press, shown
from textual.pilot import Pilot

from colony.acts.orders.orders import show_order
from colony.screens.app import ColonyApp

QUESTION = ("9", "N", "type:berit", "enter", "type:1f1m leopoldi, 14cm, half sibs", "enter")
"""Who asks, and for what: the order opens with the sets that would do."""


def test_the_question_is_answered_in_sets_and_the_best_is_kept(farm: Path) -> None:
    """The least related set stands first; K and Enter keep it, t says what the buyer may be told."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, *QUESTION, "rest")
        text = shown(app)
        assert "Order 14 of Berit Aspen: asked" in text
        assert "Would do (" in text, text
        assert "0.0625" in text or "0.0000" in text or "0.1250" in text
        await press(app, pilot, "t", "rest")
        assert "this is what we can offer" in shown(app)
        await press(app, pilot, "g", "rest")
        assert "Greatest kinship of two" in shown(app)
        await press(app, pilot, "escape", "K", "enter", "rest")
        assert "Kept for Berit Aspen until" in shown(app)

    drive(farm, look=look)
    page = ask(farm, show_order, order="14", today=TODAY).page
    assert (page.state, len(page.tags)) == ("reserved", 2)


def test_marked_animals_of_any_list_show_their_kinship(farm: Path) -> None:
    """Of the list of all animals and of a litter's page, as of the pups'."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "2", "type:leopoldi", "tab", "g")
        assert "Mark two animals or more" in shown(app)
        await press(app, pilot, "space", "down", "space", "g", "rest")
        assert "Greatest kinship of two" in shown(app)
        await press(app, pilot, "3", "end", "enter", "rest", "space", "down", "space", "g", "rest")
        assert "Greatest kinship of two" in shown(app)

    drive(farm, look=look)


def test_a_sale_that_would_take_animals_away_says_whose_before_it_is_written(farm: Path) -> None:
    """C on a kept order names the animals and the buyer; the next Enter writes it."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> None:
        await press(app, pilot, "C", "type:9", "enter")
        assert "L64-1 are sold to Casimir Birch and leave the house. Enter writes it." in " ".join(
            shown(app).split()
        )
        await press(app, pilot, "enter", "rest")

    drive(farm, look=look)
    page = ask(farm, show_order, order="9", today=TODAY).page
    assert page.state == "closed"
