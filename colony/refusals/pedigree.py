"""Refusals of a pedigree that cannot be: a loop, a male dam, a female sire."""

from collections.abc import Sequence

from colony.refusals.base import Refusal


class OwnAncestor(Refusal):
    """Following parents leads back to the same animal."""

    def __init__(self, circle: Sequence[str]) -> None:
        shown = " - ".join([*circle, circle[0]])
        super().__init__(
            f"{circle[0]} would be its own ancestor ({shown}): mend a parent of one of them."
        )


class MaleDam(Refusal):
    """A male stands as a dam."""

    def __init__(self, dam: str, pup: str) -> None:
        super().__init__(
            f"{dam} is male and stands as the dam of {pup}: mend the sex or the parent."
        )


class FemaleSire(Refusal):
    """A female stands as a sire."""

    def __init__(self, sire: str, pup: str) -> None:
        super().__init__(
            f"{sire} is female and stands as a sire of {pup}: mend the sex or the parent."
        )
