"""What a pairing plan cannot be asked for."""

from collections.abc import Sequence

from colony.refusals.base import Refusal, WrongUse, listed
from colony.refusals.notation import shown


class CannotBePaired(Refusal):
    """A pair was asked for that may not be."""

    def __init__(self, dam: str, sire: str, why: Sequence[str]) -> None:
        super().__init__(
            f"{dam} cannot be planned with {sire}: {'; '.join(why)}: "
            "ask for another pair, or override the rule by its name."
        )


class PairsDoNotFit(Refusal):
    """Pairs were asked for that cannot all be in one plan."""

    def __init__(self, pairs: Sequence[tuple[str, str]], why: str) -> None:
        names = listed([f"{dam} x {sire}" for dam, sire in sorted(pairs)], "and")
        super().__init__(f"{names} cannot be in one plan: {why}.")


class NothingToAccept(Refusal):
    """A plan without a pair cannot be accepted."""

    def __init__(self, notes: Sequence[str]) -> None:
        why = "; ".join(notes) or "the plan has no pair"
        super().__init__(f"Nothing is accepted: {why}.")


class NothingToCompare(WrongUse):
    """A plan is to be compared with itself."""

    def __init__(self) -> None:
        super().__init__(
            "--compare sets a what-if beside the plan without it: add --with, --never or --without."
        )


class NoSuchKind(Refusal):
    """Litters are wanted of a name that is neither a species nor a line."""

    def __init__(self, name: str, known: list[str]) -> None:
        super().__init__(
            f"There is no species or line {shown(name)} in the book: use {listed(known)}."
        )


class KindTwice(WrongUse):
    """Litters of one species or line are wanted twice."""

    def __init__(self, name: str) -> None:
        super().__init__(f"Litters of {shown(name)} are asked for twice: name the number once.")
