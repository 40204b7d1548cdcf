"""The places that a few words mean: a tank, a system, a row of tanks, all."""

from collections.abc import Sequence

from colony.notation.care import Task
from colony.notation.tags import nearest_tags
from colony.planning.care.walking_order import WorkPlace, by_biosecurity
from colony.refusals.care import NoSuchPlace, RunBackwards
from colony.store.readers.care import Floor

EVERYWHERE, RUN = "all", ".."


def find_places(floor: Floor, words: Sequence[str]) -> list[WorkPlace]:
    """The tanks that some words mean, and the systems among them, in walking order.

    A word is the code of a tank, the name of a system (all of its tanks, and itself), a row
    of tanks in walking order (``A1..A6``), or ``all``.

    Raises
    ------
    NoSuchPlace, RunBackwards
    """
    found = {place: None for word in words for place in _places_of(floor, word)}
    return by_biosecurity(found)


def places_for(task: Task, floor: Floor, words: Sequence[str]) -> list[WorkPlace]:
    """Where a task is done that is named with these words.

    For a task of systems a tank stands for its system. Tanks without animals are left out
    where the task is for animals, unless they are named by their own code.
    """
    places = find_places(floor, words)
    if task.per == "system":
        systems = {place.system for place in places}
        ordered = by_biosecurity(floor.places)
        return [place for place in ordered if place.per == "system" and place.name in systems]
    named = {word.casefold() for word in words}
    return [
        place
        for place in places
        if place.per == "tank"
        and (place.animals or not task.needs_animals or place.name.casefold() in named)
    ]


def _places_of(floor: Floor, word: str) -> Sequence[WorkPlace]:
    if word.casefold() == EVERYWHERE:
        return floor.places
    if RUN in word:
        begin, end = (_places_of(floor, name)[0] for name in word.split(RUN, 1))
        if end.walk < begin.walk:
            raise RunBackwards(begin.name, end.name)
        return [place for place in _tanks(floor) if begin.walk <= place.walk <= end.walk]
    tank = [p for p in _tanks(floor) if p.name.casefold() == word.casefold()]
    if tank:
        return tank
    system = [p for p in floor.places if p.system.casefold() == word.casefold()]
    if not system:
        names = [place.name for place in floor.places]
        raise NoSuchPlace(word, nearest_tags(word, names))
    return system


def _tanks(floor: Floor) -> list[WorkPlace]:
    return [place for place in floor.places if place.per == "tank"]
