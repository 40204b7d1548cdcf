"""The line in which one types to find; the keys that lead elsewhere still do."""

from textual.widgets import Input

KEYS = frozenset("/?:")
"""Keys of the program that nobody needs to find an animal."""


class SearchLine(Input):
    """An input that leaves some keys to the program."""

    def check_consume_key(self, key: str, character: str | None) -> bool:
        """Take every printable key but those of the program."""
        return character not in KEYS and super().check_consume_key(key, character)
