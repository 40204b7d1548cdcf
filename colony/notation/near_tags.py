"""Whether a name is a known tag that was only written otherwise, or with one mistake.

Numbered tags differ by their numbers: B7 and B8 are two animals, B7, b-07 and "B 7?"
are one.
"""

import re
import unicodedata
from collections import defaultdict
from collections.abc import Iterator

LETTERS_OF_A_NAME = 5
"""Shorter words differ by one letter without being a mistake; common practice, no source."""

_WORD = re.compile(r"[^\W\d_]+|\d+")
Words = tuple[str, ...]


class NearTags:
    """Known tags, found by how they sound rather than how they are written."""

    def __init__(self) -> None:
        self._same: dict[Words, list[str]] = defaultdict(list)
        self._misspelled: dict[tuple[int, Words], list[tuple[str, str]]] = defaultdict(list)

    def add(self, tag: str) -> None:
        """Know one more tag."""
        words = words_of(tag)
        self._same[_joined(words)].append(tag)
        for place, word in enumerate(words):
            if len(word) >= LETTERS_OF_A_NAME and word.isalpha():
                for key in _keys(words, place):
                    self._misspelled[key].append((tag, word))

    def same(self, name: str) -> list[str]:
        """Tags that differ in case, spaces, punctuation or leading zeros alone."""
        words = _joined(words_of(name))
        return list(self._same.get(words, ())) if words else []

    def misspelled(self, name: str) -> list[str]:
        """Tags of which one long word has one letter more, less or other, or two swapped."""
        words = words_of(name)
        found = {
            tag: None
            for place, word in enumerate(words)
            for key in (_keys(words, place) if word.isalpha() else ())
            for tag, known in self._misspelled.get(key, ())
            if is_one_edit(word, known)
        }
        return list(found)


def words_of(name: str) -> Words:
    """The runs of letters and of digits, without case, punctuation and leading zeros."""
    plain = unicodedata.normalize("NFKC", name).casefold()
    return tuple(
        (word.lstrip("0") or "0") if word[0].isdecimal() else word for word in _WORD.findall(plain)
    )


def is_near(name: str, other: str) -> bool:
    """Whether two folded names are one but for a space, a hyphen or a single letter of a word.

    A plural differs so; words of three letters or less may differ by one and be two words.
    """
    plain, known = (_joined(words_of(text)) for text in (name, other))
    if plain == known:
        return name != other
    differing = [pair for pair in zip(plain, known, strict=False) if len({*pair}) > 1]
    if len(plain) != len(known) or len(differing) != 1:
        return False
    (word, right) = differing[0]
    return min(len(word), len(right)) >= LETTERS_OF_A_NAME - 1 and is_one_edit(word, right)


def is_one_edit(name: str, other: str) -> bool:
    """Whether one letter was added, left out or mistaken, or two neighbours were swapped."""
    short, long = sorted((name, other), key=len)
    if len(long) - len(short) == 1:
        return any(long[:place] + long[place + 1 :] == short for place in range(len(long)))
    if len(long) != len(short):
        return False
    places = [place for place, pair in enumerate(zip(name, other, strict=True)) if len({*pair}) > 1]
    if len(places) == 1:
        return True
    first, last = (places[0], places[-1]) if len(places) == 2 else (0, 0)  # noqa: PLR2004 - a swap
    return last - first == 1 and name[first : last + 1] == other[first : last + 1][::-1]


def _joined(words: Words) -> Words:
    """Words that only a space parts are one; two numbers stay two: 1-12 is not 11-2."""
    joined: list[str] = []
    for word in words:
        if joined and word.isalpha() and joined[-1].isalpha():
            joined[-1] += word
        else:
            joined.append(word)
    return tuple(joined)


def _keys(words: Words, place: int) -> Iterator[tuple[int, Words]]:
    """The words with that one whole, and with each of its letters left out."""
    word = words[place]
    for part in {word, *(word[:cut] + word[cut + 1 :] for cut in range(len(word)))}:
        yield place, (*words[:place], part, *words[place + 1 :])
