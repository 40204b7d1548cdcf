"""The chain of origin of a book."""

from farm import Farm

from colony.acts.proofs.origin import missing_of_herd, show_origin


def test_a_pup_is_followed_to_its_founders(farm: Farm) -> None:
    """With what is missing, nearest first, and the codes its generation would support."""
    farm.tank("B1")
    wild = {"origin": "wild", "arrived": "2020-01-01", "arrived_from": "an importer"}
    farm.female("Alma", tank="B1", **wild)
    farm.male("Bruno", tank="B1", **wild)
    pup = farm.litter("Alma", "1F", sires="Bruno", born="30d ago", tank="B1").pups[0]
    found = farm.ask(show_origin, tag=pup)
    assert [(link.step, link.tag) for link in found.chain] == [(0, pup), (1, "Alma"), (1, "Bruno")]
    assert [(each.tag, each.step) for each in found.missing] == [(pup, 0)]
    assert {code.code for code in found.codes if code.supported} == {"F"}
    assert [paper.tag for paper in farm.ask(missing_of_herd)] == [pup, "Alma", "Bruno"]


def test_a_litter_of_a_dam_that_came_with_it_is_of_the_wild(farm: Farm) -> None:
    """Born a month after she was taken: W or R, and no F1 (CITES Notification 1998/14)."""
    farm.tank("B1")
    farm.female("Alma", tank="B1", origin="wild", arrived="40d ago")
    pup = farm.litter("Alma", "1F", born="10d ago", tank="B1").pups[0]
    found = farm.ask(show_origin, tag=pup)
    assert {code.code for code in found.codes if code.supported} == {"W", "R"}
    assert "its sire" in {each.what for each in found.missing}


def test_an_empty_book_misses_nothing(farm: Farm) -> None:
    """Nobody is here."""
    assert farm.ask(missing_of_herd) == []
