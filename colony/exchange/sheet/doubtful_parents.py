"""Parents that a sheet names and nobody has a row for, where the name looks like no name.

Whoever is named as a parent becomes an animal. A doubt or a misspelling taken as a name would be a
founder that never lived, and every F below it too low.
"""

import re
from collections.abc import Iterator, Sequence

from colony.exchange.folder.noun import NounRow
from colony.exchange.sheet.book import BookRows
from colony.exchange.sheet.cells import ways_to_write
from colony.exchange.tables.kin import ROLE_SEX
from colony.exchange.tables.reading import Source
from colony.exchange.tables.sires import sires_of
from colony.exchange.text.faults import Fault
from colony.notation.fields.animals import ORIGIN
from colony.notation.near_tags import NearTags, words_of
from colony.notation.tags import nearest_tags
from colony.refusals.cells import ParentInDoubt

_DOUBT = re.compile(r"[?¿%/\\|&+~<>()\[\]{}]|\N{FULLWIDTH QUESTION MARK}")
_DOUBT_WORDS = frozenset(
    [
        *("or", "either", "not", "maybe", "perhaps", "guess", "unsure", "uncertain"),
        *("prob", "probable", "probably", "poss", "possible", "possibly", "likely"),
        *("presumed", "presumably", "unknown", "unk"),
    ]
)
_ORIGIN_WORDS = frozenset(ways_to_write(ORIGIN)) - {"unknown"}
"""None of these is the name of an animal."""

_MOST_NAMED = 3


def check_named_parents(source: Source, rows: Sequence[NounRow], book: BookRows) -> list[Fault]:
    """List every parent without a row, here or in the book, that is a doubt or nearly a known tag."""
    check = _Check(rows, book)
    return [
        source.fault(row, role, ParentInDoubt(tag, near))
        for row in rows
        for role, tag in _parents(row)
        if (near := check.doubts(tag, role)) is not None
    ]


def _parents(row: NounRow) -> Iterator[tuple[str, str]]:
    if dam := row.values.get("dam"):
        yield "dam", dam
    for sire in sires_of(row.values):
        if sire.tag:
            yield "sire", sire.tag


class _Check:
    """What is known so far: the book, every row, and the parents that were named soundly."""

    def __init__(self, rows: Sequence[NounRow], book: BookRows) -> None:
        known = (*book.animals.values(), *rows)
        self.sexes = {row.values["tag"]: row.values.get("sex", "U") for row in known}
        self.folds = {tag.casefold() for tag in self.sexes}
        self.near = NearTags()
        self.found: dict[tuple[str, str], list[str]] = {}
        for tag in self.sexes:
            self.near.add(tag)

    def doubts(self, tag: str, role: str) -> list[str] | None:
        """The tags that a doubtful name may mean; None where it is a sound one."""
        fold = tag.casefold()
        if fold in self.folds:
            return None
        if (fold, role) not in self.found:
            near = self._near(tag, role)
            if not near and not _is_doubt(tag):
                self.folds.add(fold)
                self.sexes[tag] = ROLE_SEX[role]
                self.near.add(tag)
                return None
            self.found[fold, role] = near or nearest_tags(tag, self.sexes)
        return self.found[fold, role]

    def _near(self, tag: str, role: str) -> list[str]:
        """Bruna, a dam, is no misspelling of Bruno, a male."""
        close = [
            known
            for known in self.near.misspelled(tag)
            if self.sexes[known] in ("U", ROLE_SEX[role])
        ]
        found = dict.fromkeys([*self.near.same(tag), *close, *self._held(tag)])
        return list(found)[:_MOST_NAMED]

    def _held(self, tag: str) -> list[str]:
        """Known tags that stand in the name, beside more: "B7 B8", "B7 I think"; not "Bruno 2"."""
        words = tag.split()
        bare = [word.strip(".:!?()[]%/&+").casefold() for word in words]
        held = [word for word in bare if word in self.folds]
        telling = [word for word in held if not word.isdecimal() and words_of(word) != (word,)]
        if len(words) == 1 or not (telling or len(held) == len(words)):
            return []
        return [tag for word in held for tag in self.near.same(word)]


def _is_doubt(tag: str) -> bool:
    words = words_of(tag)
    return (
        not words
        or _DOUBT.search(tag) is not None
        or not _DOUBT_WORDS.isdisjoint(words)
        or tag.casefold() in _ORIGIN_WORDS
    )
