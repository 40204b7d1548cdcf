"""What a pairing plan cannot be asked for."""

from collections.abc import Sequence

from colony.refusals.base import Refusal, listed


class CannotBePaired(Refusal):
    """A pair was asked for that may not be."""

    def __init__(self, dam: str, sire: str, why: Sequence[str]) -> None:
        super().__init__(
            f"{dam} cannot be planned with {sire}: {'; '.join(why)}. "
            "Ask for another pair, or override the rule by its name."
        )


class PairsDoNotFit(Refusal):
    """Pairs were asked for that cannot all be in one plan."""

    def __init__(self, pairs: Sequence[tuple[str, str]], why: str) -> None:
        names = listed([f"{dam} x {sire}" for dam, sire in sorted(pairs)], "and")
        super().__init__(f"{names} cannot be in one plan: {why}.")
