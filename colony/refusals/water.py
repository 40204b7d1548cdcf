"""Refusals about water: a volume that is not known, a change beyond its limit, a value that cannot be."""

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class NoVolume(Refusal):
    """A system's volume is not in the book."""

    def __init__(self, system: str) -> None:
        super().__init__(
            f"The volume of {system} is not in the book: write it down.",
            act("tank system", system, volume="2000L"),
        )


class NoRegime(Refusal):
    """A system has no way of renewing its water, so a change needs its litres."""

    def __init__(self, system: str) -> None:
        super().__init__(
            f"How {system} is changed is not in the book: give the litres, or set it once.",
            act("water regime", system, percent="25", every="7"),
        )


class RegimeUnclear(WrongUse):
    """A regime names neither a batch with its rhythm nor a drip."""

    def __init__(self, broken: str) -> None:
        super().__init__(
            f"{broken}: in batches (25 percent every 7 days), by a drip (120L a day), or both.",
            again(percent="25", every="7"),
            again(drip="120L"),
        )


class MoreThanTheLimit(Refusal):
    """A batch is larger than a system may be changed in a day."""

    def __init__(self, system: str, percent: float, most: float) -> None:
        super().__init__(
            f"{percent:g} % of {system} at once is more than its limit of {most:g} % a day: "
            "change less and more often, or set the most.",
            act("water regime", system, most=""),
        )


class MoreThanTheSystem(WrongUse):
    """More was changed than the system holds."""

    def __init__(self, system: str, changed: str, volume: str) -> None:
        super().__init__(f"{system} holds {volume}: {changed} cannot have been changed at once.")


class NoSuchParameter(WrongUse):
    """A water test names something that is not tested."""

    def __init__(self, name: str, known: list[str]) -> None:
        super().__init__(f"{shown(name)} is nothing that is tested: use {listed(known)}.")


class ValueOutOfRange(WrongUse):
    """A test value is none that water can have."""

    def __init__(self, parameter: str, text: str, least: float, most: float, unit: str) -> None:
        super().__init__(
            f"{parameter} cannot be {shown(text)}: it lies between {least:g} and {most:g} {unit}".rstrip()
            + "."
        )


class UnreadableTest(WrongUse):
    """A value of a water test is not written as NAME=NUMBER."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no test value: write NAME=NUMBER, such as ph=6.8 nitrate_mg_l=25."
        )


class LimitUnclear(WrongUse):
    """A limit has no bound, or its low is not below its high."""

    def __init__(self, parameter: str, broken: str) -> None:
        super().__init__(
            f"A limit of {parameter} cannot be set so: {broken}.",
            again(low=""),
            again(high=""),
        )


class ReserveLevelTooHigh(WrongUse):
    """More was seen in the reserve than it holds."""

    def __init__(self, level: str, capacity: str) -> None:
        super().__init__(
            f"The reserve holds {capacity}: {level} cannot be in it; set its volume too.",
            again(volume=""),
        )
