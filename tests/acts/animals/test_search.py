"""Search and list: what they find is what plain reading of every line finds."""

import pytest
from farm import TODAY, Farm

from colony.acts.animals.listing import ListedAnimal, list_animals
from colony.acts.animals.search import AnimalFilter, search_animals, who_are, who_is

WORDS = ("alma", "BRUNO", "caro", "ärger", "Ärger", "leopoldi", "white", "26-01", "%", "o", "dora")


@pytest.fixture
def doubt(farm: Farm) -> Farm:
    """Parents beyond doubt and in doubt, of a litter and from elsewhere, some of them settled."""
    farm.tank("B1")
    for tag in ("Alma", "Dora"):
        farm.female(tag, tank="B1", line="White spot")
    for tag in ("Bruno", "Caro"):
        farm.male(tag, name="ÄRGER" if tag == "Caro" else None)
    farm.litter("Alma", "2F1M", sires=["Bruno=0.5", "Caro=0.5"], born="40d ago")
    farm.litter("Dora", "2F", sires=["Bruno=0.7", "Caro=0.3"], born="40d ago")
    farm.animal("Zoe", born="2024", dam="Alma", sires=["Bruno=0.8", "Caro=0.2"])
    farm.animal("Yara", born="2024", dam="Dora", sires="Caro")
    farm.edit("26-01-2", sires="Bruno")
    farm.measure("Zoe", "21cm")
    farm.end("Yara", "sold")
    return farm


def listed(farm: Farm, *words: str) -> list[ListedAnimal]:
    """Everybody in the list that has these words."""
    wanted = AnimalFilter(words=words, status=None)
    lines, _ = farm.ask(list_animals, wanted=wanted, today=TODAY)
    return list(lines)


def says(animal: ListedAnimal, word: str) -> bool:
    """A word stands in a text of a line, as plain Python reads it."""
    sires = (sire.split("=")[0] for sire in animal.sires)
    texts = (animal.tag, animal.name, animal.species, animal.line, animal.dam, *sires)
    return any(word.casefold() in text.casefold() for text in texts if text)


@pytest.mark.parametrize("word", WORDS)
def test_a_word_finds_whoever_has_it_in_a_line(doubt: Farm, word: str) -> None:
    """Possible sires count, unless a test on one pup has settled its litter."""
    expected = [one.tag for one in listed(doubt) if says(one, word)]
    assert [one.tag for one in listed(doubt, word)] == expected
    found = doubt.ask(search_animals, wanted=AnimalFilter(words=[word], status=None), today=TODAY)
    assert sorted(one.tag for one in found) == sorted(expected)


def test_a_list_and_a_search_show_the_same_of_an_animal(doubt: Farm) -> None:
    """One value for both; only the list asks for F."""
    for line in listed(doubt):
        found = doubt.ask(who_is, tag=line.tag, today=TODAY)
        assert line.inbreeding is not None
        assert found.inbreeding is None
        assert {**vars(line), "inbreeding": None} == vars(found)
    assert [one.tag for one in doubt.ask(who_are, tags=["Zoe", "Alma"], today=TODAY)] == [
        "Zoe",
        "Alma",
    ]


def test_a_page_begins_with_the_tags_that_begin_with_the_word(doubt: Farm) -> None:
    """Then the others, each part by tag, and pages join without a gap."""
    wanted = AnimalFilter(words=["a"], status=None)
    whole = [one.tag for one in doubt.ask(search_animals, wanted=wanted, today=TODAY)]
    assert whole[0] == "Alma"
    assert whole[1:] == sorted(whole[1:], key=str.casefold)
    pages = [
        one.tag
        for offset in range(0, len(whole), 2)
        for one in doubt.ask(search_animals, wanted=wanted, offset=offset, limit=2, today=TODAY)
    ]
    assert pages == whole
