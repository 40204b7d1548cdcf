"""Guards are asked by every act; the breeder overrules with a reason that is kept."""

import pytest
from farm import TODAY, Farm

from colony.acts.animals.animals import end_animal
from colony.acts.book.check import check_book
from colony.acts.book.undo import undo_last
from colony.acts.pairings.pairings import start_pairing
from colony.acts.pairings.partners import pick_partners
from colony.acts.tanks.tanks import move
from colony.refusals.animals import AnywayNeedsWhy, StandsAgainst


@pytest.fixture
def family(farm: Farm) -> Farm:
    """A dam, a sire, and a grown son of theirs."""
    farm.tank("N1")
    farm.female("Alma", born="2015", tank="N1")
    farm.male("Bruno", born="2015", tank="N1")
    farm.male("Kimo", dam="Alma", sires="Bruno", tank="N1")
    return farm


def overrulings(farm: Farm) -> list[tuple[object, ...]]:
    """What was overruled, in the order of the book."""
    return farm.rows("SELECT act, guard, why FROM overruling ORDER BY id")


def test_a_mother_and_her_son_are_refused_and_nothing_is_written(family: Farm) -> None:
    """Their kinship is 1/4, the limit 1/8."""
    before = family.written()
    with pytest.raises(StandsAgainst, match=r"Alma and Kimo: kinship 0\.25, above the limit"):
        family.pair("Alma", "Kimo", on="today")
    assert family.written() == before


def test_anyway_asks_why_and_keeps_it(family: Farm) -> None:
    """Without a reason it is wrong use; with one it is done, said, listed as accepted, undone."""
    facts = {"dam": "Alma", "sires": ["Kimo"], "on": TODAY, "anyway": True, "today": TODAY}
    with pytest.raises(AnywayNeedsWhy, match="needed"):
        family.do(start_pairing, **facts)
    paired = family.do(start_pairing, **facts, why="to test for a hidden colour")
    assert paired.warnings == ("Alma and Kimo: kinship 0.25, above the limit of 0.125",)
    assert overrulings(family) == [("pair", "kin", "to test for a hidden colour")]
    found = [each for each in family.ask(check_book, today=TODAY) if each.check == "pairing"]
    assert [(each.level, each.accepted) for each in found] == [
        ("accepted", "to test for a hidden colour")
    ]
    family.do(undo_last)
    assert overrulings(family) == []


def test_a_pairing_that_was_never_accepted_is_odd(family: Farm) -> None:
    """One from before the guards is named with the command that ends it."""
    family.pair("Alma", "Bruno", on="today")
    family.write("UPDATE animal SET breeding_ban = 'short tail' WHERE tag = 'Bruno'")
    found = [each for each in family.ask(check_book, today=TODAY) if each.check == "pairing"]
    assert [each.level for each in found] == ["odd"]
    assert found[0].problem == "is paired, and Bruno: not to be bred: short tail"
    assert [remedy.name for remedy in found[0].remedies] == ["pairing end"]


def test_partners_above_the_limit_are_left_out_unless_kin_is_ignored(family: Farm) -> None:
    """The ranking asks the same guard."""
    picked = family.ask(pick_partners, tag="Alma", today=TODAY)
    assert [partner.tag for partner in picked.partners] == ["Bruno"]
    reasons = {line.tag: line.reasons for line in picked.left_out}
    assert reasons["Kimo"] == ["kin: kinship 0.25, above the limit of 0.125"]
    ignored = family.ask(pick_partners, tag="Alma", overridden=frozenset({"kin"}), today=TODAY)
    assert {partner.tag for partner in ignored.partners} == {"Bruno", "Kimo"}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda farm: farm.hold("Kimo", "a sore"), "Kimo: health hold: a sore"),
        (
            lambda farm: farm.edit("Kimo", reserved_for="Brook House"),
            r"reserved for order 1 \(Brook House\)",
        ),
        (lambda farm: farm.edit("Kimo", held_back=True), "kept as a future breeder"),
    ],
)
def test_what_is_held_reserved_or_kept_back_is_not_sold(
    family: Farm, change: object, said: str
) -> None:
    """It is sold all the same with a reason; a death asks nobody."""
    change(family)  # type: ignore[operator]
    with pytest.raises(StandsAgainst, match=said):
        family.end("Kimo", "sold")
    sale = {"tag": "Kimo", "how": "sold", "on": TODAY, "why": "Pond Ltd", "today": TODAY}
    family.do(end_animal, **sale, anyway=True)
    assert [why for _, _, why in overrulings(family)] == ["Pond Ltd"]


def test_death_asks_no_guard(family: Farm) -> None:
    """A held animal that died is written down without a question."""
    family.hold("Kimo")
    family.end("Kimo", "died")
    assert overrulings(family) == []


def test_a_wild_arrival_does_not_go_into_shared_water(farm: Farm) -> None:
    """It goes with a reason; one that came long ago does not need one."""
    farm.tank("N1")
    with pytest.raises(StandsAgainst, match=r"came from outside on 2026-03-09: isolated until"):
        farm.female("Rio", origin="wild", arrived="today", tank="N1")
    farm.female("Oro", origin="wild", arrived="2025-01-01", tank="N1")
    farm.female("Rio", origin="wild", arrived="today")
    with pytest.raises(StandsAgainst, match="N1 shares its water"):
        farm.move("Rio", tank="N1")
    facts = {"tags": ["Rio"], "tank": "N1", "on": TODAY, "today": TODAY}
    farm.do(move, **facts, anyway=True, why="the intake leaks")
    assert overrulings(farm) == [("move", "arrival", "the intake leaks")]
