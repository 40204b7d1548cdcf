"""What the program says to the breeder in one line."""

from dataclasses import dataclass

MARKS = {"written": "■", "refused": "!", "away": "!", "elsewhere": "→", "hint": "·"}
"""The mark before a line of each kind, so that colour never speaks alone."""


@dataclass(frozen=True)
class Status:
    """One line and its kind."""

    words: str = ""
    kind: str = "hint"

    @property
    def mark(self) -> str:
        """The mark of its kind."""
        return MARKS[self.kind]
