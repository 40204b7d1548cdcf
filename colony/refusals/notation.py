"""Refusals of what was typed: a length, a day, a litter, a tag that cannot be read."""

from colony.refusals.base import WrongUse, act, listed

_SHOWN = 60


def shown(text: str, longest: int = _SHOWN) -> str:
    """Quote what was typed, inert and cut to a readable length."""
    cut = text if len(text) <= longest else f"{text[:longest]}..."
    return (
        "'"
        + "".join(char if char.isprintable() else "\N{REPLACEMENT CHARACTER}" for char in cut)
        + "'"
    )


class UnreadableMeasure(WrongUse):
    """There is no number in a length, mass or volume."""

    def __init__(self, text: str, quantity: str, example: str) -> None:
        super().__init__(
            f"{shown(text)} is no {quantity}: write a number and a unit, such as {example}."
        )


class UnknownUnit(WrongUse):
    """A measure has a unit that is not known for it."""

    def __init__(self, text: str, quantity: str, units: list[str]) -> None:
        super().__init__(f"{shown(text)} has no unit of {quantity}: use {listed(units)}.")


class MeasureOutOfRange(WrongUse):
    """A measure is nothing, or beyond what the house can hold."""

    def __init__(self, text: str, quantity: str, example: str) -> None:
        super().__init__(f"{shown(text)} cannot be a {quantity} here: write one such as {example}.")


class ThousandsOrDecimals(WrongUse):
    """A comma that may part thousands or decimals."""

    def __init__(self, text: str) -> None:
        plain, point = text.replace(",", "").strip(), text.replace(",", ".").strip()
        super().__init__(
            f"{shown(text)} may mean thousands or decimals: write {shown(plain)} or {shown(point)}."
        )


class UnreadableDay(WrongUse):
    """A date is in none of the ways that are taken."""

    def __init__(self, text: str, *, exact: bool = False) -> None:
        wrong = "is not one exact day" if exact else "is no date"
        super().__init__(
            f"{shown(text)} {wrong}: write it as 2026-03-09, today, yesterday, 3d ago or in 2w."
        )


class DayOrderNotSaid(WrongUse):
    """A date could be day first or month first, and the house has not said which it writes."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} does not say which is the day and which the month: write it as "
            "2026-03-09, or set the order of dates of the house once.",
            act("book settings", "date_order", "dmy"),
        )


class DayOutOfRange(WrongUse):
    """A date lies outside the years that a book can mean."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} is outside the years 1900 to 2199: check the year.")


class UnreadableSpan(WrongUse):
    """A span of days cannot be read."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no span of time: write days or weeks, such as 60d or 8w."
        )


class UnreadablePups(WrongUse):
    """A count of pups by sex cannot be read."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no count of pups: write each sex once, such as 2F3M1U (0 if none lived)."
        )


class TooManyPups(WrongUse):
    """More pups than any litter has."""

    def __init__(self, text: str, most: int) -> None:
        super().__init__(f"{shown(text)} is more than {most} pups in one litter: check the count.")


class BadTag(WrongUse):
    """A tag is empty, too long, or holds a character with another meaning."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} cannot be a tag: use 1 to 40 printable characters, "
            "without = * , or ; and with no dash in front."
        )


class UnprintableText(WrongUse):
    """A name or note holds control characters or is too long."""

    def __init__(self, what: str, longest: int) -> None:
        super().__init__(
            f"The {what} must be at most {longest} printable characters, without control codes."
        )


class UnreadableShare(WrongUse):
    """A sire's probability cannot be read."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} does not say how likely that sire is: write each as TAG=0.7 (or 70%), "
            "or none of them for equal shares."
        )


class SireTwice(WrongUse):
    """A possible sire is named twice for one litter."""

    def __init__(self, tag: str) -> None:
        super().__init__(f"{shown(tag)} stands twice among the sires: name each once.")


class SharesDoNotSum(WrongUse):
    """Probabilities of the possible sires do not sum to 1."""

    def __init__(self, total: float) -> None:
        super().__init__(
            f"The shares of the sires sum to {total:.4g}, not 1: add the rest as unknown=SHARE if it is none of them."
        )


class BadTransponder(WrongUse):
    """A transponder number is not one of ISO 11784."""

    def __init__(self, text: str, why: str) -> None:
        super().__init__(
            f"{shown(text)} is no ISO 11784 transponder number: {why}; copy all 15 digits from the reader."
        )


class UnreadableWord(WrongUse):
    """What was typed is no text in the encoding of the system."""

    def __init__(self, word: str) -> None:
        super().__init__(
            f"{shown(word)} cannot be read as text: set the terminal and the locale to UTF-8, and type it again."
        )


class UnknownWord(WrongUse):
    """A word is none of those that can stand here."""

    def __init__(self, text: str, what: str, words: tuple[str, ...]) -> None:
        super().__init__(f"{shown(text)} is no {what}: use {listed(words)}.")


class UnreadablePair(WrongUse):
    """A pair is not a dam and a sire."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no pair: write the dam, a star and the sire, such as Alma*Bruno."
        )


class UnreadableWanted(WrongUse):
    """A number of litters cannot be read."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} does not say how many litters of what: write leopoldi=4.")
