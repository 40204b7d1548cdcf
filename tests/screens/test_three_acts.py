"""The three acts of every week, in so few keys from home."""

from pathlib import Path

from screens_house import TODAY, ask, drive, settle, shown, text_after
from textual.pilot import Pilot

from colony.acts.litters.listing import list_litters
from colony.screens.app import ColonyApp


def test_a_litter_of_five_takes_fewer_than_twelve_keys_beyond_the_pups(farm: Path) -> None:
    """b, the dam's first letters, Enter, the pups, Enter: and the book holds the litter."""
    beyond = ["b", "a", "l", "m", "enter", "enter"]
    drive(farm, *beyond[:5], "type:2f3m", *beyond[5:])
    assert len(beyond) < 12
    newest = ask(farm, list_litters, dam="Alma")[0]
    assert (newest.born, newest.live, newest.dead, newest.tank) == (TODAY, 5, 0, "N1")
    assert [sire.partition("=")[0] for sire in newest.sires] == ["Bruno", "Caro", "unknown"]


def test_a_birth_on_a_line_of_today_takes_its_dam_along(farm: Path) -> None:
    """From a line that expects a birth: b, Enter, the pups, Enter."""

    async def look(app: ColonyApp, pilot: Pilot[None]) -> str:
        while app.screen.about is None or app.screen.about.key != "Alma":  # type: ignore[attr-defined]
            await pilot.press("down")
            await settle(app, pilot)
        for key in ("b", "enter", "1", "f", "enter"):
            await pilot.press(key)
            await settle(app, pilot)
        return shown(app)

    text = drive(farm, look=look)
    assert text is not None
    assert "of Alma by" in text
    assert ask(farm, list_litters, dam="Alma")[0].live == 1


def test_the_best_partners_take_three_keys_beyond_the_tag(farm: Path) -> None:
    """p, the tag, Enter: the ranking, least related first."""
    text = text_after(farm, "p", "type:alma", "enter")
    assert "Partners of Alma" in text
    lines = [line for line in text.splitlines() if line.startswith("● ")]
    kinships = [float(line.split()[2]) for line in lines]
    assert kinships == sorted(kinships)
    assert len(kinships) > 1


def test_the_ready_list_takes_one_key(farm: Path) -> None:
    """5, or r: ready pups stand first."""
    for key in ("5", "r"):
        assert "Ready for sale" in text_after(farm, key).splitlines()[2]


def test_a_birth_names_the_other_male_who_was_with_her(farm: Path) -> None:
    """Kaya was with Bruno and with Caro: both are possible, and the line after the form says so."""
    said = " ".join(text_after(farm, "b", "type:kaya", "enter", "type:2f2m", "enter").split())
    newest = ask(farm, list_litters, dam="Kaya")[0]
    assert newest.born == TODAY
    assert [sire.partition("=")[0] for sire in newest.sires] == ["Bruno", "Caro", "unknown"]
    assert "! One of several is the sire" in said
    assert "Caro in N1 with her from" in said


def test_a_sire_that_passes_over_another_male_is_asked_about(farm: Path) -> None:
    """Bruno alone: the form says who else was there, and F2 writes it and keeps that."""
    keys = ["b", "type:kaya", "enter", "type:2f2m", *["tab"] * 3, "type:bruno"]
    asked = " ".join(text_after(farm, *keys, "enter").split())
    assert "Caro was in N1 with her from" in asked
    assert ask(farm, list_litters, dam="Kaya")[0].born != TODAY
    text_after(farm, *keys, "enter", "f2")
    newest = ask(farm, list_litters, dam="Kaya")[0]
    assert (newest.born, list(newest.sires)) == (TODAY, ["Bruno"])


def test_a_danger_is_answered_with_y_on_its_line(farm: Path) -> None:
    """The first line of Today: y, what was done, Enter; it is told no more."""
    danger = text_after(farm).splitlines()
    at = next(n for n, line in enumerate(danger) if line.startswith("! "))
    first = danger[at]
    said = text_after(farm, "y", "type:moved to the nursery", "enter")
    assert "answered." in said
    assert first not in text_after(farm)


def test_a_birth_is_prepared_by_n_on_its_line_on_a_narrow_screen_too(farm: Path) -> None:
    """The steps stand above the keys where there is no room beside the list."""
    said = " ".join(text_after(farm, "3", "n").split())
    assert "look in every day until" in said
