"""Refusals about health: holds, look-overs, vet visits, deaths."""

from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, again


class HeldAlready(Refusal):
    """An animal is held and cannot be held twice."""

    fields = ("tag",)

    def __init__(self, tag: str, since: date, why: str) -> None:
        super().__init__(
            f"{tag} is held since {since} already ({why}): release it first.",
            act("animal release", tag),
        )


class NotHeld(Refusal):
    """An animal that is not held is released."""

    fields = ("tag",)

    def __init__(self, tag: str, on: date) -> None:
        super().__init__(f"{tag} is not held on {on}: there is nothing to release.")


class LookOverOfWhom(WrongUse):
    """A look-over names neither an animal nor a tank, or both."""

    def __init__(self, broken: str) -> None:
        super().__init__(f"{broken}: name one of the two.", again(tank=""))


class WellAndSick(WrongUse):
    """A look-over says "well" beside another sign."""

    def __init__(self) -> None:
        super().__init__("'well' stands alone: leave it out where a sign was seen.")


class NobodySeenByVet(WrongUse):
    """A vet visit names no animal."""

    def __init__(self) -> None:
        super().__init__(
            "A vet visit names the animals that were seen: name each.", again(animal="")
        )


class NotDead(Refusal):
    """A page of death is asked for an animal that did not die."""

    def __init__(self, tag: str, status: str) -> None:
        super().__init__(
            f"{tag} is {status}, not dead: record its death.", act("animal end", tag, "died")
        )


class NothingToSurvive(Refusal):
    """Survival is asked of a book without litters."""

    def __init__(self) -> None:
        super().__init__(
            "No pup of a litter is in the book yet: record a litter.", act("litter record")
        )
