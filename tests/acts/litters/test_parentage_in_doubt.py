"""Who the sire is: doubt, tests that settle it, and mending."""

import pytest
from farm import TODAY, Farm

from colony.acts.animals.page import show_animal
from colony.acts.litters.edit import edit_litter
from colony.acts.pedigree.kinship import inbreeding_of, kinship_of
from colony.notation.fields.facts import LitterFacts
from colony.notation.shares import parse_sires
from colony.refusals.animals import EndsBeforeItBegan, ParentNotOlder
from colony.refusals.litters import (
    DeadDam,
    LitterKnows,
    LitterTwice,
    SettledOtherwise,
    SireFoundByTest,
    SireNotPossible,
)


@pytest.fixture
def doubt(farm: Farm) -> Farm:
    """A litter of three whose sire is Bruno or Caro."""
    farm.tank("B1")
    farm.tank("B2")
    farm.female("Alma", tank="B1")
    for tag in ("Bruno", "Caro", "Ivo"):
        farm.male(tag)
    farm.litter("Alma", "3U", sires=["Bruno", "Caro"], born="30d ago")
    return farm


def sires(farm: Farm, tag: str) -> list[str]:
    """Sires of an animal, as its page shows them."""
    page = farm.ask(show_animal, tag=tag, today=TODAY)
    return list(page.facts["sires"])


def kinship(farm: Farm, one: str, other: str) -> float:
    """Kinship of two animals."""
    return float(farm.ask(kinship_of, one=one, other=other).kinship)


def mend(farm: Farm, **facts: object) -> None:
    """Mend litter 26-01."""
    corrections = LitterFacts(**facts)
    farm.do(edit_litter, code="26-01", corrections=corrections, today=TODAY)


def test_one_unknown_sire_of_a_litter_leaves_its_pups_full_sibs(doubt: Farm) -> None:
    """Kinship 0.25 among littermates and 0.125 with either sire (enumeration)."""
    assert sires(doubt, "26-01-1") == ["Bruno=0.5", "Caro=0.5"]
    assert kinship(doubt, "26-01-1", "26-01-2") == 0.25
    assert kinship(doubt, "26-01-1", "Bruno") == 0.125


def test_pups_that_may_differ_are_less_related(doubt: Farm) -> None:
    """0.1875 among littermates (Henderson 1988, J. Anim. Sci. 66:1614-1621; enumeration)."""
    mend(doubt, pups_may_differ=True)
    assert kinship(doubt, "26-01-1", "26-01-2") == 0.1875
    assert kinship(doubt, "26-01-1", "Bruno") == 0.125


def test_one_pups_test_settles_a_litter_of_one_sire(doubt: Farm) -> None:
    """Bruno is the sire of one, so of all; where pups may differ, of that one only."""
    doubt.edit("26-01-2", sires="Bruno")
    assert [sires(doubt, f"26-01-{n}") for n in (1, 2, 3)] == [["Bruno"]] * 3
    assert kinship(doubt, "26-01-1", "Caro") == 0
    mend(doubt, pups_may_differ=True)
    assert sires(doubt, "26-01-1") == ["Bruno=0.5", "Caro=0.5"]
    assert sires(doubt, "26-01-2") == ["Bruno"]


def test_a_test_can_be_mended_while_it_is_the_only_one(doubt: Farm) -> None:
    """The laboratory mixed two samples up."""
    doubt.edit("26-01-2", sires="Bruno")
    doubt.edit("26-01-2", sires="Caro")
    assert sires(doubt, "26-01-1") == ["Caro"]


def test_a_litter_of_one_sire_takes_no_second_from_another_test(doubt: Farm) -> None:
    """Either a test is wrong, or pups may differ: the book does not choose."""
    doubt.edit("26-01-1", sires="Bruno")
    before = doubt.written()
    with pytest.raises(SettledOtherwise, match="Bruno for 26-01-1 and Caro for 26-01-2"):
        doubt.edit("26-01-2", sires="Caro")
    assert doubt.written() == before
    mend(doubt, pups_may_differ=True)
    doubt.edit("26-01-2", sires="Caro")
    with pytest.raises(SettledOtherwise):
        mend(doubt, pups_may_differ=False)


def test_a_test_finds_a_sire_that_was_held_possible(doubt: Farm) -> None:
    """Another male is first made possible, or somebody unknown was."""
    with pytest.raises(SireNotPossible, match="Bruno or Caro"):
        doubt.edit("26-01-1", sires="Ivo")
    mend(doubt, sires=parse_sires(["Bruno=0.5", "unknown=0.5"]))
    doubt.edit("26-01-1", sires="Ivo")
    assert sires(doubt, "26-01-3") == ["Ivo"]


def test_the_sires_of_a_litter_keep_what_a_test_found(doubt: Farm) -> None:
    """Mending them cannot contradict a test silently."""
    doubt.edit("26-01-1", sires="Bruno")
    with pytest.raises(SireFoundByTest, match="Bruno is the sire of 26-01-1"):
        mend(doubt, sires=parse_sires(["Caro", "Ivo"]))
    mend(doubt, sires=parse_sires(["Bruno", "Ivo"]))


def test_everything_computed_follows_a_mended_sire(doubt: Farm) -> None:
    """F of a pup of two littermates is 0.25 whoever the sire was; of a half sib it is not."""
    mend(doubt, born=doubt.day("900d ago"))
    doubt.edit("26-01-1", sex="F")
    doubt.edit("26-01-2", sex="M")
    pup = doubt.litter("26-01-1", "1U", sires="26-01-2").pups[0]
    assert doubt.ask(inbreeding_of, tags=[pup])[0].inbreeding == 0.25
    mend(doubt, sires=parse_sires(["Ivo"]))
    assert doubt.ask(inbreeding_of, tags=[pup])[0].inbreeding == 0.25
    assert kinship(doubt, "26-01-1", "Ivo") == 0.25


def test_a_pup_has_the_birth_and_the_dam_of_its_litter(doubt: Farm) -> None:
    """They are corrected in one place."""
    doubt.female("Bella")
    for facts in ({"born": "2026-01-01"}, {"dam": "Bella"}, {"dam": "Bella", "sires": "Bruno"}):
        with pytest.raises(LitterKnows, match="26-01"):
            doubt.edit("26-01-1", **facts)


def test_a_mended_birth_moves_the_pups_and_their_first_place(doubt: Farm) -> None:
    """Their age and the day they entered the tank follow."""
    mend(doubt, born=doubt.day("20d ago"))
    born = str(doubt.day("20d ago"))
    assert doubt.rows("SELECT DISTINCT born FROM animal WHERE litter_id = 1") == [(born,)]
    assert doubt.rows("SELECT DISTINCT entered_on FROM placement WHERE animal_id > 4") == [(born,)]


@pytest.mark.parametrize("event", ["move", "measure", "feed", "end"])
def test_a_birth_is_not_mended_past_what_a_pup_did(doubt: Farm, event: str) -> None:
    """It was moved, measured, fed or sold before it would have been born."""
    if event == "move":
        doubt.move("26-01-1", tank="B2", on="10d ago")
    elif event == "measure":
        doubt.measure("26-01-1", "14cm", on="10d ago")
    elif event == "feed":
        doubt.feed("26-01-1", "worms", on="10d ago")
    else:
        doubt.end("26-01-1", "sold", on="10d ago")
    before = doubt.written()
    with pytest.raises(EndsBeforeItBegan, match="26-01-1"):
        mend(doubt, born=doubt.day("5d ago"))
    assert doubt.written() == before


def test_a_mended_birth_is_held_to_its_dam(doubt: Farm) -> None:
    """She was born, alive, and bore nothing else that day."""
    doubt.litter("Alma", sires="Bruno", born="200d ago")
    with pytest.raises(LitterTwice, match="25-01"):
        mend(doubt, born=doubt.day("200d ago"))
    with pytest.raises(ParentNotOlder):
        mend(doubt, born=doubt.day("2018-06-01"))
    doubt.write("UPDATE placement SET entered_on = '2025-01-01' WHERE entered_on > '2026-02-01'")
    doubt.end("Alma", on="20d ago")
    with pytest.raises(DeadDam):
        mend(doubt, born=doubt.day("10d ago"))


def test_parents_of_an_animal_from_elsewhere_may_be_in_doubt_too(farm: Farm) -> None:
    """Two possible sires of a bought animal, settled later by naming one."""
    farm.female("Alma")
    farm.male("Bruno")
    farm.male("Caro")
    farm.animal("Zoe", born="2024", dam="Alma", sires=["Bruno=0.8", "Caro=0.2"])
    assert sires(farm, "Zoe") == ["Bruno=0.8", "Caro=0.2"]
    farm.edit("Zoe", sires="Caro")
    assert sires(farm, "Zoe") == ["Caro"]
    assert farm.rows("SELECT count(*) FROM possible_sire") == [(0,)]
