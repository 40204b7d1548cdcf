"""What every refusal is: one sentence that says what is wrong, where, and what would be right."""

from typing import ClassVar


class Refusal(Exception):
    """The book declines, in one sentence; nothing was written.

    Each refusal is a class of its own that takes facts and composes its sentence.
    """

    exit_code: ClassVar[int] = 1

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class WrongUse(Refusal):
    """What was typed cannot be read; the sentence shows what would be right."""

    exit_code: ClassVar[int] = 2


def listed(names: list[str] | tuple[str, ...], last: str = "or") -> str:
    """Join names as a sentence does: ``a, b or c``."""
    *head, tail = names or ["none"]
    return f"{', '.join(head)} {last} {tail}" if head else tail
