"""Refusals of the round: a place that is none, a run of tanks that cannot be, a missing rhythm."""

from colony.refusals.base import Refusal, WrongUse, listed
from colony.refusals.notation import shown


class NoSuchPlace(Refusal):
    """A word is neither a tank in use nor a system."""

    def __init__(self, word: str, nearest: list[str]) -> None:
        hint = f"did you mean {listed(nearest)}?" if nearest else "see: colony tank list."
        super().__init__(f"There is no tank in use or system {shown(word)}: {hint}")


class RunBackwards(WrongUse):
    """A row of tanks ends before it begins."""

    def __init__(self, first: str, last: str) -> None:
        super().__init__(
            f"{shown(last)} comes before {shown(first)} on your walk: write the row as {last}..{first}, "
            "or set the order: colony round order TANK ..."
        )


class NothingToTick(Refusal):
    """Nothing is open at the places named."""

    def __init__(self, task: str, places: list[str]) -> None:
        super().__init__(f"Nothing is left to tick for {task} at {', '.join(places)}.")


class NoRhythm(Refusal):
    """A rhythm that is to be taken away is not there."""

    def __init__(self, task: str, where: str) -> None:
        super().__init__(f"{task} has no rhythm of its own {where}: see colony round rhythms.")


class RhythmTwoWays(WrongUse):
    """A rhythm is both several times a day and days apart, or holds in more than one way."""

    def __init__(self) -> None:
        super().__init__(
            "A task is done --times a day, or --every so many days, not both; for one --tank, "
            "one --system or one --role, or for all."
        )


class WrongPlaceForTask(WrongUse):
    """A task of systems is given a tank or a role, or a task of tanks cannot be one of a system."""

    def __init__(self, task: str) -> None:
        super().__init__(
            f"{task} is done once for a system: give --system NAME, or nothing for all systems."
        )


class RoundBegun(Refusal):
    """The usual rhythms would be written over those that are there."""

    def __init__(self) -> None:
        super().__init__("The round has rhythms already: change one with colony round rhythm TASK.")
