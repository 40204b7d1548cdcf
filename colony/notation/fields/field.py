"""One fact of a noun, as the catalogue declares it: every face and every file reads it here."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from colony.notation.days import Day
from colony.notation.tags import LONGEST_TEXT

VALUES = frozenset(
    {
        *("text", "tag", "tags", "word", "yes_no", "transponder", "sires", "label", "personal"),
        *("day", "known_day", "count", "positive", "number"),
        *("length_mm", "mass_g", "volume_l"),
    }
)
"""The kinds of a value of its own; any other kind is the noun whose row is meant."""

_BESIDE = frozenset({"sires", "tags", "label", "personal"})


@dataclass(frozen=True)
class Field:
    """One fact: the type of its value, and what it is called everywhere.

    Parameters
    ----------
    name
        The column, the fact of an act, the heading of an exported file and the key in JSON.
    kind
        One of `VALUES`, or the noun that is referred to: ``species``, ``tanks``. A ``label``
        is made of other columns when a file is written; what is ``personal`` stands outside the
        journal.
    label
        The words at its place in a form; left out, the name.
    help
        What ``--help`` says of its option.
    hint
        What a form shows where nothing is typed yet.
    what
        What a person calls it within a sentence, if not by its name.
    first
        What holds of a new record where nothing else is said: it stands in a form already.
    option
        The option, if it is not the name: ``--from``, ``--hold-back/--for-sale``.
    headings
        What a breeder's own sheet calls it; a slash stands for a space.
    sheet
        What it is called by ``--map`` and in an exported sheet, if not by its name.
    words, synonyms
        The words to choose from, and how a breeder's own sheet writes each.
    needed, empty
        Whether a cell must say something, and what an empty one means.
    within
        The other column that it takes to name a row: a batch within its food.
    sex
        The sex of the animal that is asked for.
    several
        Whether its option may be repeated: its value is a list.
    least, most
        The smallest and the largest number that a face takes; of a volume, a least of 0 says that
        nothing at all is an answer too.
    ahead
        Whether a day to come may be meant.
    longest
        How many characters a text has at most.
    """

    name: str
    kind: str = "text"
    label: str = ""
    help: str = ""
    hint: str = ""
    what: str = ""
    first: str = ""
    option: str = ""
    headings: str = ""
    sheet: str = ""
    words: tuple[str, ...] = ()
    synonyms: Mapping[str, str] = field(default_factory=dict, hash=False)
    needed: bool = False
    empty: Any = None
    within: str | None = None
    sex: str | None = None
    several: bool = False
    least: float | None = None
    most: float = 9999
    ahead: bool = False
    longest: int = LONGEST_TEXT

    @property
    def words_for_it(self) -> str:
        """What a person calls it within a sentence."""
        return self.what or self.name.replace("_", " ")

    @property
    def title(self) -> str:
        """The words at its place in a form."""
        return self.label or self.words_for_it.capitalize()

    @property
    def switch(self) -> str:
        """The option of a command that takes it."""
        return self.option or f"--{self.name.replace('_', '-')}"

    @property
    def sheet_name(self) -> str:
        """What it is called in a breeder's own sheet."""
        return self.sheet or self.name

    @property
    def refers(self) -> bool:
        """Whether its value is a row of another noun."""
        return self.kind not in VALUES

    def called(self, name: str, **otherwise: Any) -> "Field":  # noqa: ANN401 - whatever is declared
        """The same fact by another name, as a record or an act has it."""
        return replace(self, name=name, **otherwise)

    @property
    def is_column(self) -> bool:
        """Whether it stands in its noun's own record, not beside it or made of other columns."""
        return self.kind not in _BESIDE

    def columns(self, value: Any) -> dict[str, Any]:  # noqa: ANN401 - each kind has its own type
        """The columns of the record for a value; for a row that is referred to, its id.

        A day that may be known in part has a second column for its precision.
        """
        if self.refers:
            return {f"{self.name}_id": value}
        if not isinstance(value, Day):
            return {self.name: None if value == "" else value}
        precision = {f"{self.name}_precision": value.precision} if self.kind == "known_day" else {}
        return {self.name: value.first} | precision


NOTE = Field("note", help="A note.", headings="note notes remark remarks comment comments")
ON = Field(
    "on",
    "day",
    help="Day: 2026-03-09, today, yesterday, 3d ago.",
    first="today",
    needed=True,
)
"""The day of what is written down; each record calls it by its own name."""

ANIMAL = Field("animal", "animals", help="The animal's tag.", needed=True)
TAG_OF_ANIMAL = ANIMAL.called("tag", label="Animal")
"""The animal of what is written down: in a record, and as acts take it."""


def choice(words: Sequence[str]) -> str:
    """The help of an option for one of some words."""
    return f"{', '.join(words[:-1])} or {words[-1]}."
