"""Hold what is written down to days that can be."""

from datetime import date

from colony.records import Animal
from colony.refusals.animals import EndsBeforeItBegan, NotHere, NotYet


def refuse_future(what: str, on: date, today: date) -> None:
    """Refuse to write down what has not happened yet."""
    if on > today:
        raise NotYet(what, on, today)


def refuse_before_life(animal: Animal, on: date) -> None:
    """Refuse an event before an animal was born."""
    if animal.born is not None and on < animal.born:
        raise EndsBeforeItBegan(animal.tag, on, animal.born)


def refuse_ended(animal: Animal, act: str, on: date | None = None) -> None:
    """Refuse an act with an animal that is dead, sold or gone, or was before that day."""
    if on is not None and animal.ended_on is not None and on <= animal.ended_on:
        return
    if animal.status != "present":
        raise NotHere(animal.tag, animal.status, animal.ended_on, act)
