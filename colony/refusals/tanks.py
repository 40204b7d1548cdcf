"""Refusals about tanks: an unknown one, a taken code, a full one."""

from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class NoSuchTank(Refusal):
    """No tank has that code; the nearest are named."""

    fields = ("tank",)

    def __init__(self, code: str, nearest: list[str]) -> None:
        sentence = f"There is no tank {shown(code)}"
        if nearest:
            super().__init__(f"{sentence}: did you mean {listed(nearest)}?")
        else:
            super().__init__(f"{sentence}: look in the list of tanks.", act("tank list"))


class NoSuchSystem(Refusal):
    """No system has that name."""

    def __init__(self, name: str, known: list[str]) -> None:
        hint = f"use {listed(known)}, or make it" if known else "make it"
        super().__init__(f"There is no system {shown(name)}: {hint}.", act("tank system"))


class TankCodeTaken(Refusal):
    """Another tank has that code."""

    def __init__(self, code: str) -> None:
        super().__init__(f"The tank code {shown(code)} is taken: every tank has a code of its own.")


class TankShape(WrongUse):
    """A tank is neither rectangular nor round."""

    def __init__(self, broken: str) -> None:
        super().__init__(
            f"{broken}: give those two, or that one.",
            again(length="", width=""),
            again(diameter=""),
        )


class TankRetired(Refusal):
    """A tank is out of use."""

    fields = ("tank",)

    def __init__(self, code: str, on: date) -> None:
        super().__init__(f"Tank {code} was taken out of use on {on}: choose another.")


class TankDoesNotFit(Refusal):
    """A limit of a tank would break."""

    fields = ("tank",)

    def __init__(self, code: str, reasons: list[str]) -> None:
        super().__init__(
            f"Tank {code} does not take this: {'; '.join(reasons)}: choose another tank, or override the limit.",
            again(anyway=True),
        )


class AlreadyInTank(Refusal):
    """An animal is in that tank already."""

    fields = ("tank", "tags")

    def __init__(self, tag: str, code: str) -> None:
        super().__init__(f"{tag} is in {code} already.")


class MoveBeforeLast(Refusal):
    """A move lies before the move that is recorded last."""

    fields = ("on",)

    def __init__(self, tag: str, on: date, last: date) -> None:
        super().__init__(f"{tag} was last moved on {last}: a move on {on} would come before that.")


class MoveNeedsTank(WrongUse):
    """A move names no tank after the animals."""

    def __init__(self) -> None:
        super().__init__("A move names animals and then the tank.", act("tank move"))


class LeavesIsolationEarly(Refusal):
    """Animals would leave isolation before its clock has run out, without a reason on record."""

    fields = ("why",)

    def __init__(self, tags: list[str], until: date) -> None:
        super().__init__(
            f"{listed(tags, 'and')} would leave isolation before {until}: nothing leaves early "
            "without a reason on record, so give one if it must be.",
            again(anyway=True, why=""),
        )
