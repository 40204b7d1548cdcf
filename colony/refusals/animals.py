"""Refusals about who an animal is: an unknown tag, a taken one, an end that cannot be."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class NoSuchTag(Refusal):
    """No animal has that tag; the nearest are named."""

    def __init__(self, tag: str, nearest: list[str]) -> None:
        sentence = f"There is no animal {shown(tag)} in the book"
        if nearest:
            super().__init__(f"{sentence}: did you mean {listed(nearest)}?")
        else:
            super().__init__(f"{sentence}: look in the list of animals.", act("animal list"))


class TagTaken(Refusal):
    """Another animal has that tag already."""

    fields = ("tag",)

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"The tag {shown(tag)} is taken: every animal in the book has a tag of its own."
        )


class ReservedTag(Refusal):
    """A tag is the word for a sire that nobody knows."""

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"The tag {shown(tag)} stands for a sire that is not known: choose another word for an animal."
        )


class TransponderTaken(Refusal):
    """Another animal carries that transponder."""

    fields = ("transponder",)

    def __init__(self, transponder: str, tag: str) -> None:
        super().__init__(
            f"Transponder {transponder} is {shown(tag)}'s already: read both animals again."
        )


class NoSuchSpecies(Refusal):
    """The book has no such species."""

    fields = ("species",)

    def __init__(self, name: str, known: list[str]) -> None:
        self.known = known
        super().__init__(
            f"There is no species {shown(name)} in the book: use {listed(known)}, or add it.",
            act("species add"),
        )


class NotYet(Refusal):
    """Something is written down before it happened."""

    fields = ("on", "born", "arrived")

    def __init__(self, what: str, on: date, today: date) -> None:
        super().__init__(f"{what} on {on} is in the future: today is {today}.")


class WrongSexForParent(Refusal):
    """A male dam or a female sire."""

    fields = ("dam", "sires")

    def __init__(self, tag: str, sex: str, role: str) -> None:
        has = {"F": "female", "M": "male", "U": "not sexed"}[sex]
        needs = {"dam": "a female", "sire": "a male"}[role]
        super().__init__(
            f"{tag} is {has} and cannot be a {role}: name {needs}, or correct its sex.",
            act("animal edit", tag, sex=needs[2].upper()),
        )


class OwnParent(Refusal):
    """An animal is named as its own parent."""

    def __init__(self, tag: str) -> None:
        super().__init__(f"{tag} cannot be its own parent: name another animal.")


class ParentNotOlder(Refusal):
    """A parent is younger than its pup."""

    fields = ("born", "dam")

    def __init__(self, parent: str, parent_born: date, pup: str, pup_born: date) -> None:
        super().__init__(
            f"{parent} was born on {parent_born} and cannot be a parent of {pup}, born on {pup_born}: check both dates."
        )


class NotHere(Refusal):
    """An animal has ended and can take no part in this."""

    fields = ("tag", "tags", "dam")

    def __init__(self, tag: str, status: str, ended_on: date | None, act: str) -> None:
        super().__init__(f"{tag} {_ended(status)} on {ended_on} and cannot {act}.")


class AlreadyEnded(Refusal):
    """An animal ended before."""

    fields = ("tag",)

    def __init__(self, tag: str, status: str, ended_on: date | None) -> None:
        super().__init__(
            f"{tag} {_ended(status)} on {ended_on} already: take that back first if it is wrong.",
            act("animal edit", tag, back=True),
        )


class NotEnded(Refusal):
    """An animal that is here is taken back from its end."""

    def __init__(self, tag: str) -> None:
        super().__init__(f"{tag} is present: there is no end to take back.")


class EndsBeforeItBegan(Refusal):
    """An end, or another event, lies before the birth or arrival of the animal."""

    fields = ("on", "born")

    def __init__(self, tag: str, on: date, began: date) -> None:
        super().__init__(f"{tag} was born or came on {began}: {on} is before that.")


class NothingToChange(Refusal):
    """An edit names no fact."""

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"Nothing was given that would change {tag}: name a fact, such as its name or its birth."
        )


def _ended(status: str) -> str:
    return {"died": "died", "sold": "was sold", "gone": "left"}.get(status, status)


class SpeciesTaken(Refusal):
    """The book has that species already."""

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Species {shown(name)} is in the book already: set its numbers.", act("species set")
        )


class NotATraitNumber(WrongUse):
    """A life-history number is not above nothing, or no number."""

    def __init__(self, trait: str, number: float) -> None:
        super().__init__(f"{trait} cannot be {number:g}: write a number above 0, in days or mm.")


class NoSuchTrait(WrongUse):
    """There is no life-history number of that name."""

    def __init__(self, trait: str, known: list[str]) -> None:
        super().__init__(f"There is no number {shown(trait)} of a species: use {listed(known)}.")


class EndNeedsHow(WrongUse):
    """Only one word is given where animals and how they ended are needed."""

    def __init__(self) -> None:
        super().__init__("Name the animals, then how they ended: sold, died or gone.")


class EndsBeforeLater(Refusal):
    """An animal is to end before something that was written of it happened."""

    fields = ("on",)

    def __init__(self, tag: str, on: date, events: list[str]) -> None:
        super().__init__(
            f"{tag} was {listed(events, 'and')}, after {on}: say a day that is not before that, or "
            "undo what was written by mistake.",
            act("book history", animal=tag),
        )


class LastSeenUnclear(WrongUse):
    """An animal is said to be last seen alive in a way that its end contradicts."""

    fields = ("last_seen",)

    def __init__(self, tag: str, broken: str) -> None:
        super().__init__(
            f"{tag} cannot be written off so: {broken}.", again(last_seen=""), again(on="")
        )


class StandsAgainst(Refusal):
    """Something stands against an act with an animal; the breeder may decide otherwise."""

    fields = ("why",)

    def __init__(self, reasons: Sequence[str], *, for_good: bool = False) -> None:
        remedies = () if for_good else (again(anyway=True, why=""),)
        super().__init__(f"{'; '.join(reasons)}.", *remedies)


class AnywayNeedsWhy(WrongUse):
    """What stands against an act is to be overruled, and no reason is given."""

    fields = ("why",)

    def __init__(self, reasons: Sequence[str]) -> None:
        super().__init__(
            f"{'; '.join(reasons)}: the reason why it is done anyway is kept, and needed.",
            again(anyway=True, why=""),
        )


class HardlyMeant(Refusal):
    """What is about to be written can hardly be meant; it is written if the breeder says so."""

    def __init__(self, doubts: Sequence[str]) -> None:
        super().__init__(f"{'; '.join(doubts)}.", again(anyway=True))
