"""What a buyer is told, as plain text to copy: animals, parents, kinship in words, price, day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from colony.notation.cautions import LOCAL_CODES, STING
from colony.notation.house import say_length
from colony.notation.words import SEX_WORDS
from colony.refusals.base import listed

UNRELATED, DISTANT, CLOSE = 0.0, 0.03125, 0.125
"""Kinship of two: half sibs of unrelated parents stand at 0.125, full cousins at 0.0625 (Wright
1922)."""


@dataclass(frozen=True)
class ToldAnimal:
    """One animal as a buyer reads of it; `price` as it is said, "" where none is set."""

    tag: str
    sex: str
    species: str
    width_mm: float | None
    dam: str | None
    sires: tuple[str, ...]
    price: str
    ready_on: date | None


def animal_line(animal: ToldAnimal, today: date) -> str:
    """One animal on one line."""
    width = "" if not animal.width_mm else f", {say_length(round(animal.width_mm))} wide"
    parents = _parents(animal)
    price = f", {animal.price}" if animal.price else ""
    later = animal.ready_on is not None and animal.ready_on > today
    when = f", ready about {animal.ready_on}" if later else ""
    kind = f"{SEX_WORDS.get(animal.sex, animal.sex)} {animal.species}".strip()
    return f"- {animal.tag}: {kind}{width}{parents}{price}{when}"


def kinship_in_words(greatest: float, mean: float, animals: int, known: float) -> str:
    """How related the animals of a set are, for a buyer.

    Parameters
    ----------
    known
        The fewest known generations of ancestors of any of them: with less than one nothing is
        said to be unrelated.
    """
    if animals <= 1:
        return ""
    if greatest <= UNRELATED:
        if known < 1:
            return "No common ancestor is on record, but not all of their parents are known."
        return (
            f"They share no ancestor as far as their pedigrees reach ({known:.1f} generations): "
            "unrelated."
        )
    if greatest < DISTANT:
        how = "They are distantly related"
    elif greatest < CLOSE:
        how = "They are related no closer than cousins or so"
    elif greatest < 2 * CLOSE:
        how = "Some are as close as half sibs or more"
    else:
        how = "Some are as close as full sibs or more"
    return f"{how} (greatest kinship {greatest:.3g}, mean {mean:.3g})."


def message_text(
    opening: str, animals: Sequence[ToldAnimal], related: str, closing: Sequence[str], today: date
) -> str:
    """A message: how it opens, the animals, how related they are, and what is said last."""
    lines = [opening, "", *(animal_line(animal, today) for animal in animals)]
    lines += ["", related] if related else []
    lines += ["", *closing] if closing else []
    return "\n".join([*lines, "", STING, LOCAL_CODES])


def _parents(animal: ToldAnimal) -> str:
    if animal.dam is None and not animal.sires:
        return ", parents not on record"
    sires = listed(list(animal.sires)) if animal.sires else "a sire not on record"
    return f", from {animal.dam or 'a dam not on record'} x {sires}"
