"""Refusals of a pedigree that cannot be, with the animals named."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, listed
from colony.refusals.notation import shown


class OwnAncestor(Refusal):
    """An animal descends from itself; the way round is shown."""

    def __init__(self, loop: Sequence[str]) -> None:
        way = ", ".join(
            f"{parent} is a parent of {pup}"
            for pup, parent in zip(loop, [*loop[1:], loop[0]], strict=True)
        )
        super().__init__(
            f"{loop[0]} would be its own ancestor ({way}): correct one of these parents."
        )


class MaleDam(Refusal):
    """Males stand as dams."""

    def __init__(self, cases: Sequence[tuple[str, str]]) -> None:
        super().__init__(_wrong_sex(cases, "male", "dam"))


class FemaleSire(Refusal):
    """Females stand as sires."""

    def __init__(self, cases: Sequence[tuple[str, str]]) -> None:
        super().__init__(_wrong_sex(cases, "female", "sire"))


class NotAFounder(Refusal):
    """A kinship between founders names an animal with recorded parents, or one twice."""

    def __init__(self, tag: str) -> None:
        super().__init__(
            f"{tag} cannot be given a founder's kinship: name animals without recorded parents, each once."
        )


class TooManyBreeders(Refusal):
    """So many animals breed at one time that their kinship table does not fit in memory."""

    def __init__(self, breeders: int, most: int) -> None:
        super().__init__(
            f"{breeders:,} animals of this pedigree breed at the same time, more than the {most:,} whose kinship fits in memory: ask for fewer animals by their tags."
        )


def _wrong_sex(cases: Sequence[tuple[str, str]], sex: str, role: str) -> str:
    shown = [f"{parent} is {sex} and stands as {role} of {pup}" for parent, pup in cases[:5]]
    more = [f"{len(cases) - 5} more"] if len(cases) > len(shown) else []
    return f"{listed(shown + more, 'and')}: correct the sex or the parent."


class NobodyLives(Refusal):
    """Figures are asked for, and nobody lives of whom they could be."""

    def __init__(self, today: date) -> None:
        super().__init__(f"Nobody of that kind is present on {today}: there is nobody to sum up.")


class SharesAreOff(Refusal):
    """The shares of possible sires in the book do not sum to 1."""

    def __init__(self, pup: str, total: float) -> None:
        super().__init__(
            f"The shares of the possible sires of {pup} sum to {total:.4g}, not 1: correct them in the litter, or in the animal.",
            act("litter edit", sire="TAG=SHARE"),
            act("animal edit", sire="TAG=SHARE"),
        )


class NoSuchPicture(WrongUse):
    """A chart is to be written into a kind of file that is not drawn."""

    def __init__(self, path: str, kinds: Sequence[str]) -> None:
        super().__init__(
            f"{shown(path)} is no picture this draws: end its name in {listed(list(kinds))}."
        )
