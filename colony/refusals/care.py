"""Refusals of the round: a place that is none, a run of tanks that cannot be, a missing rhythm."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class NoSuchPlace(Refusal):
    """A word is neither a tank in use nor a system."""

    def __init__(self, word: str, nearest: list[str]) -> None:
        sentence = f"There is no tank in use or system {shown(word)}"
        if nearest:
            super().__init__(f"{sentence}: did you mean {listed(nearest)}?")
        else:
            super().__init__(f"{sentence}: look in the list of tanks.", act("tank list"))


class RunBackwards(WrongUse):
    """A row of tanks ends before it begins."""

    def __init__(self, first: str, last: str) -> None:
        super().__init__(
            f"{shown(last)} comes before {shown(first)} on your walk: write the row as {last}..{first}, "
            "or set the order of your walk.",
            act("round order"),
        )


class NoSuchAlarm(Refusal):
    """An alarm that is answered is not told today."""

    fields = ("place", "alarm")

    def __init__(self, place: str, alarm: str | None, told: Sequence[str]) -> None:
        which = f" that begins with {shown(alarm)}" if alarm else ""
        places = f"the day tells alarms of {listed(list(told))}" if told else "the day tells none"
        super().__init__(f"There is no alarm of {shown(place)}{which}: {places}.")


class TaskIsFixed(WrongUse):
    """A word that means something in every round is to become another task."""

    fields = ("task",)

    def __init__(self, task: str) -> None:
        super().__init__(
            f"{shown(task)} has its own meaning in every round: choose another name, or set "
            "nothing but its caution."
        )


class NotAnOwnTask(Refusal):
    """A usual task is to be taken off the list."""

    def __init__(self, task: str) -> None:
        super().__init__(
            f"{task} is one of the usual tasks: it is not due any more without a rhythm.",
            act("round rhythm", task, drop=True),
        )


class NothingToTick(Refusal):
    """Nothing is open at the places named."""

    def __init__(self, task: str, places: list[str], left: Sequence[str] = ()) -> None:
        values = f": what is open takes a value ({', '.join(left)})" if left else ""
        super().__init__(f"Nothing is left to tick for {task} at {', '.join(places)}{values}.")


class EverythingEverywhere(Refusal):
    """All work of the whole house is to be ticked off at once, unasked."""

    def __init__(self) -> None:
        super().__init__(
            "All open work of the whole house would be ticked off: say that it is done.",
            again(yes=True),
        )


class TaskTakesValue(WrongUse):
    """A task is to be ticked off that is done by writing down what was seen or given."""

    def __init__(self, task: str, takes: str, act_name: str, place: str) -> None:
        super().__init__(
            f"A {task} is not ticked off empty: write down {takes}, which ticks it off.",
            act(act_name, place),
        )


class NoRhythm(Refusal):
    """A rhythm that is to be taken away is not there."""

    def __init__(self, task: str, where: str) -> None:
        super().__init__(
            f"{task} has no rhythm of its own {where}: look in the list of rhythms.",
            act("round rhythms"),
        )


class RhythmTwoWays(WrongUse):
    """A rhythm is both several times a day and days apart, or holds in more than one way."""

    def __init__(self, broken: str) -> None:
        super().__init__(
            f"{broken}.",
            again(times=""),
            again(every=""),
        )


class WrongPlaceForTask(WrongUse):
    """A task of systems is given a tank or a role, or a task of tanks cannot be one of a system."""

    def __init__(self, task: str) -> None:
        super().__init__(
            f"{task} is done once for a system: name the system, or none for all systems.",
            again(system=""),
        )


class RoundBegun(Refusal):
    """The usual rhythms would be written over those that are there."""

    def __init__(self) -> None:
        super().__init__("The round has rhythms already: change one of them.", act("round rhythm"))


class NoSuchFood(Refusal):
    """The house has no food of that name."""

    def __init__(self, name: str, known: list[str]) -> None:
        hint = f"use {listed(known)}, or add it" if known else "add it first"
        super().__init__(f"There is no food {shown(name)}: {hint}.", act("food add"))


class FoodNearAnother(Refusal):
    """A food that was never given is written nearly as one that is known."""

    fields = ("food",)

    def __init__(self, food: str, near: list[str]) -> None:
        super().__init__(
            f"{shown(food)} was never given here, {listed(near)} was: name that, or put the new one on "
            "the list first.",
            act("food add", food),
        )


class NoSuchBatch(Refusal):
    """A food has no open batch of that code."""

    def __init__(self, food: str, code: str, known: list[str]) -> None:
        hint = f"open are {listed(known, 'and')}" if known else "none is open"
        super().__init__(
            f"{food} has no open batch {shown(code)}: {hint}; add one.",
            act("food batch", food),
        )


class BatchTaken(Refusal):
    """A food has a batch of that code already."""

    def __init__(self, food: str, code: str) -> None:
        super().__init__(
            f"{food} has a batch {shown(code)} already: write the code as on the package."
        )


class BatchNotThereYet(Refusal):
    """A batch is finished before it came."""

    def __init__(self, code: str, on: date, received: date) -> None:
        super().__init__(f"Batch {shown(code)} came on {received}: it cannot be finished on {on}.")


class NobodyToFeed(Refusal):
    """No animal is in a tank on that day."""

    def __init__(self, tank: str, on: date) -> None:
        super().__init__(f"Nobody is in {tank} on {on}: check the tank or the day.")


class NotInThisTank(Refusal):
    """An animal is named at the feeding of a tank that it is not in."""

    def __init__(self, tag: str, tank: str) -> None:
        super().__init__(f"{tag} is not in {tank}: check the tag, or move it first.")
