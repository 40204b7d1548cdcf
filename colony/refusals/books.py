"""Refusals of the book itself: not there, already there, newer than the program, damaged."""

from colony.refusals.base import Refusal, WrongUse
from colony.refusals.notation import shown


class NoSuchBook(Refusal):
    """There is no book where one was to be read."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"There is no book at {shown(location)}: begin one by recording something in it, "
            "or make one to try with: colony sample PATH."
        )


class BookAlreadyThere(Refusal):
    """A new book would overwrite something."""

    def __init__(self, location: str) -> None:
        super().__init__(f"Something is at {shown(location)} already: name a path that is free.")


class NotABook(Refusal):
    """A file is no colony book, or is damaged."""

    def __init__(self, location: str, why: str) -> None:
        super().__init__(
            f"{shown(location)} cannot be read as a colony book ({why}): check the path, or restore a backup."
        )


class BookIsNewer(Refusal):
    """A book was last opened by a newer program."""

    def __init__(self, location: str, version: str) -> None:
        super().__init__(
            f"The book at {shown(location)} has schema {shown(version)}, which this program is too old to know: "
            "upgrade the program; the book was not touched."
        )


class BookNotReachable(Refusal):
    """The place of a book cannot be read or written."""

    def __init__(self, location: str, why: str) -> None:
        super().__init__(
            f"The book at {shown(location)} cannot be reached ({why}); nothing was written: "
            "check the disk, the folder's rights and that it is mounted."
        )


class BookRefused(Refusal):
    """The database held a rule that an act would have broken."""

    def __init__(self, rule: str) -> None:
        super().__init__(f"The book refused this ({rule}); nothing was written.")


class UnknownSetting(WrongUse):
    """There is no setting of that name."""

    def __init__(self, key: str, keys: list[str]) -> None:
        super().__init__(f"There is no setting {shown(key)}: the settings are {', '.join(keys)}.")


class BadSetting(WrongUse):
    """A setting cannot have that value."""

    def __init__(self, key: str, value: str, right: str) -> None:
        super().__init__(f"{key} cannot be {shown(value)}: it takes {right}.")
