"""Refusals of words that only a command line has."""

from colony.refusals.base import WrongUse, listed
from colony.refusals.notation import shown


class JsonAfterVerb(WrongUse):
    """``--json`` stands before the subject that is to answer."""

    def __init__(self, subject: str) -> None:
        super().__init__(
            f"--json stands after the verb: colony {subject} VERB --json; alone it gives the state of the day."
        )


class NoSuchSubject(WrongUse):
    """The first word of a command is none of the subjects."""

    def __init__(self, word: str, known: list[str]) -> None:
        super().__init__(
            f"{shown(word)} is no subject of this program: did you mean {listed(known)}?"
        )
