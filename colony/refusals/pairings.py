"""Refusals about pairings."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.base import Again, Refusal, WrongUse, act, listed
from colony.refusals.notation import shown


class PairedAlready(Refusal):
    """A dam is in a pairing and cannot be in two."""

    fields = ("dam",)

    def __init__(self, dam: str, since: date) -> None:
        super().__init__(
            f"{dam} is paired since {since} already: end that first.", act("pairing end", dam)
        )


class NoPairing(Refusal):
    """A dam is in no pairing."""

    fields = ("dam",)

    def __init__(self, dam: str) -> None:
        super().__init__(f"{dam} is in no pairing now: start one.", act("pairing start", dam))


class EndsBeforeStart(Refusal):
    """A pairing ends before it began."""

    fields = ("on",)

    def __init__(self, dam: str, on: date, started: date) -> None:
        super().__init__(f"The pairing of {dam} began on {started}: it cannot end on {on}.")


class PartnerNeedsSex(Refusal):
    """A partner is sought for an animal whose sex is not known."""

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"The sex of {tag} is not recorded: look for claspers, then record it.",
            act("animal edit", tag, sex=""),
        )


class NoSuchRule(WrongUse):
    """A rule that is to be overridden does not exist."""

    def __init__(self, name: str, known: list[str]) -> None:
        super().__init__(f"There is no rule {shown(name)} of pairing: use {listed(known)}.")


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
            "A comparison sets a what-if beside the plan without it: say which pair it has with it, "
            "which pair never, or which animal it is without.",
            *(Again(((option, ""),)) for option in ("with", "never", "without")),
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
