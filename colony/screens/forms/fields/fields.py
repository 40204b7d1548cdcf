"""The fields of a form: each reads what is typed, and says how it was understood."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

from colony.notation.tags import LONGEST_TEXT, parse_text
from colony.notation.words import parse_word
from colony.refusals.notation import UnknownWord
from colony.screens.frame.session import BookSession


class Understood(NamedTuple):
    """What a field holds, and how that was understood, in words."""

    value: object
    words: str = ""


@dataclass(frozen=True)
class FormField:
    """One field: free text, unless a subclass reads it otherwise.

    `needed` fields have to be filled; `first` is what stands in it before anything is
    typed; `empty` says what holds where it stays empty; a text has `longest` characters at most.
    """

    name: str
    label: str
    needed: bool = False
    first: str = ""
    empty: str = ""
    longest: int = LONGEST_TEXT

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - other fields ask the book
        """Read what is typed; a refusal says what is wrong."""
        return Understood(parse_text(text, self.label.lower(), self.longest))

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:  # noqa: ARG002 - the same
        """What the beginning of a word may become."""
        return ()

    def spoken(self, text: str) -> str:
        """The part of the text that is completed: all of it."""
        return text


@dataclass(frozen=True)
class WordField(FormField):
    """One of some words; its beginning is enough. `what` names the word in a refusal."""

    words: tuple[str, ...] = ()
    what: str = ""

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - as the base
        """Read the word."""
        word = parse_word(text, self.words, self.what or self.label.lower())
        return Understood(word, word)

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:  # noqa: ARG002 - as the base
        """The words that begin so; all of them in the empty field."""
        return [word for word in self.words if word.casefold().startswith(text.casefold())]


@dataclass(frozen=True)
class YesNoField(WordField):
    """Yes or no."""

    words: tuple[str, ...] = ("yes", "no")
    what: str = "answer"

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Read yes or no."""
        word = super().understand(text, book_session).words
        return Understood(word == "yes", word)


@dataclass(frozen=True)
class CountField(FormField):
    """A small whole number. `what` names it in a refusal."""

    most: int = 30
    what: str = ""

    def understand(self, text: str, book_session: BookSession) -> Understood:  # noqa: ARG002 - as the base
        """Read the number."""
        plain = text.strip()
        if not plain.isdecimal() or not plain.isascii() or int(plain[:9]) > self.most:
            raise UnknownWord(
                text, self.what or self.label.lower(), (f"a number from 0 to {self.most}",)
            )
        return Understood(int(plain))
