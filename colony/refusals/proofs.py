"""Refusals about papers: codes that are none, codes that were altered, keys."""

from colony.refusals.base import Refusal, WrongUse
from colony.refusals.notation import shown


class NotACode(Refusal):
    """What is to be verified holds no code of ours."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"There is no whole code of a paper in {shown(text)}: give the file, a sharp picture "
            "of the paper, or the text of its code."
        )


class AlteredCode(Refusal):
    """A code whose signature does not fit."""

    def __init__(self) -> None:
        super().__init__(
            "The signature does not fit: the code was altered, or is not whole; do not trust it."
        )


class AnotherSigner(Refusal):
    """A good signature by another key than the one that is trusted."""

    def __init__(self, fingerprint: str) -> None:
        super().__init__(
            f"The signature is good and of another key ({fingerprint}): it is not of the breeder "
            "whose key you hold."
        )


class NotAKey(WrongUse):
    """What is no public key."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no key: it is the 64 signs from 0 to 9 and a to f that the breeder gave away."
        )


class KeyNotReadable(Refusal):
    """The key that signs cannot be read or made."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"The key at {path} cannot be used ({why}): put its backup in its place.")


class CannotLook(Refusal):
    """A picture or page that cannot be read."""

    def __init__(self, path: str) -> None:
        super().__init__(f"{shown(path)} is no picture or PDF that can be read: take it again.")
