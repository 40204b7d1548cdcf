"""Refusals of the book itself: not there, already there, newer than the program, damaged."""

from collections.abc import Sequence

from colony.refusals.base import Refusal, WrongUse, act
from colony.refusals.notation import shown

_LONGEST_PATH = 300


def at(location: str) -> str:
    """Quote a path or URL whole: its end is what tells it from others."""
    return shown(location, _LONGEST_PATH)


class NoSuchBook(Refusal):
    """There is no book where one was to be read."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"There is no book at {at(location)}: begin one by recording something in it, "
            "or make one to try with.",
            act("sample"),
        )


class BookAlreadyThere(Refusal):
    """A new book would overwrite something."""

    def __init__(self, location: str) -> None:
        super().__init__(f"Something is at {at(location)} already: name a path that is free.")


class NotABook(Refusal):
    """A file is no colony book, or is damaged."""

    def __init__(self, location: str, why: str) -> None:
        super().__init__(
            f"{at(location)} cannot be read as a colony book ({why}): check the path, or put a backup back.",
            act("book restore", "newest"),
        )


class RowDamaged(Refusal):
    """A row of the book is not as its table allows: it was changed past the program."""

    def __init__(self, location: str, row: str, rule: str) -> None:
        super().__init__(
            f"The book at {at(location)} is damaged: {shown(row)} breaks a rule ({rule}); nothing was written: "
            "look at every such row, and make the book anew from its journal.",
            act("book check"),
            act("book rebuild"),
        )


class BookIsNewer(Refusal):
    """A book was last opened by a newer program."""

    def __init__(self, location: str, version: str) -> None:
        super().__init__(
            f"The book at {at(location)} has schema {shown(version)}, which this program is too old to know: "
            "upgrade the program; the book was not touched."
        )


class BookNotReachable(Refusal):
    """The place of a book cannot be read or written."""

    def __init__(self, location: str, why: str) -> None:
        right = (
            "the server, the network and the password"
            if "://" in location
            else "the disk, the folder's rights and that it is mounted"
        )
        super().__init__(
            f"The book at {at(location)} cannot be reached ({why}); nothing was written: check {right}."
        )


class UnfitForBook(WrongUse):
    """A text or number that no database can hold."""

    def __init__(self, why: str) -> None:
        super().__init__(
            f"The book cannot hold what was given ({shown(why)}); nothing was written: "
            "use plain text, and numbers of a usual size."
        )


class FolderNotThere(Refusal):
    """A book was to be begun in a folder that does not exist."""

    def __init__(self, location: str, folder: str) -> None:
        super().__init__(
            f"There is no book at {at(location)}, nor the folder {at(folder)}: is its disk mounted, "
            "or is the folder to be made first?"
        )


class BookVanished(Refusal):
    """The file of an open book is gone, or another file has taken its name."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"The book at {at(location)} is not the file it was when it was opened; nothing was written: "
            "check that its disk is still mounted, then try again."
        )


class BookBusy(Refusal):
    """Somebody else has been writing for too long."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"Somebody else is writing in the book at {at(location)}; nothing was written: try again, "
            "and end the other program if it does not finish."
        )


class DiskFull(Refusal):
    """There is no room for what was to be written."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"The disk is full, so nothing was written in the book at {at(location)}; all that was in it is safe: "
            "make room, then try again."
        )


class MayNotWrite(Refusal):
    """The book can be read, not written."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"You may read the book at {at(location)}, not write in it; nothing was written: "
            "ask whoever keeps it for the right to write."
        )


class UnknownDatabase(WrongUse):
    """A URL is of a database that a book cannot be kept in."""

    def __init__(self, location: str) -> None:
        super().__init__(
            f"A book cannot be kept at {at(location)}: name a file, or a database as "
            "postgresql+psycopg://USER@HOST/DATABASE (install colony[postgres] for that)."
        )


class CopyDiffers(Refusal):
    """A copy was read back and is not what was copied."""

    def __init__(self, location: str, where: str) -> None:
        super().__init__(
            f"The copy at {at(location)} came out otherwise at {where} and was taken away: "
            "check the disk, then try again."
        )


class CopyDamaged(Refusal):
    """A backup cannot be used."""

    def __init__(self, location: str, why: str) -> None:
        super().__init__(
            f"The backup {at(location)} cannot be used ({why}); the book was not touched: "
            "choose another one from their list.",
            act("book backup", list=True),
        )


class BackupOfAnotherBook(Refusal):
    """A backup is of another book than the one that it would take the place of."""

    def __init__(self, copy: str, location: str) -> None:
        super().__init__(
            f"{at(copy)} is a backup of another book than the one {at(location)}: put it where no "
            "book is, or move that one away first.",
        )


class NotRestored(Refusal):
    """A backup was put in place, and what was read back is not the backup."""

    def __init__(self, location: str, why: str) -> None:
        super().__init__(
            f"The backup did not come out whole at {at(location)} ({shown(why)}); what was there before is safe "
            "among the backups: check the disk, then restore again from their list.",
            act("book backup", list=True),
        )


class NoSuchCopy(WrongUse):
    """There is no backup of that name."""

    def __init__(self, name: str, folder: str) -> None:
        super().__init__(
            f"There is no backup {at(name)}, neither as a path nor in {at(folder)}: "
            "choose one from their list.",
            act("book backup", list=True),
        )


class BookRefused(Refusal):
    """The database held a rule that an act would have broken."""

    def __init__(self, rule: str) -> None:
        super().__init__(f"The book refused this ({rule}); nothing was written.")


class NumberTaken(Refusal):
    """The counter of a server gave a number that a row has."""

    def __init__(self, rule: str) -> None:
        super().__init__(
            f"The book refused this ({rule}); nothing was written: a counter is behind its rows, "
            "let it go on after them, then try again.",
            act("book recount"),
        )


class UnknownSetting(WrongUse):
    """There is no setting of that name."""

    def __init__(self, key: str, keys: list[str]) -> None:
        super().__init__(f"There is no setting {shown(key)}: the settings are {', '.join(keys)}.")


class BadSetting(WrongUse):
    """A setting cannot have that value."""

    def __init__(self, key: str, value: str, right: str) -> None:
        super().__init__(f"{key} cannot be {shown(value)}: it takes {right}.")


_LONGEST_FAULT = 200


class ScreensFailed(Refusal):
    """A fault of the program ended the screens; what was typed and not written is said."""

    def __init__(self, fault: str, typed: Sequence[str] = ()) -> None:
        kept = f"; typed and not written: {'; '.join(typed)}" if typed else ""
        super().__init__(
            f"The screens had to close over a fault of the program ({shown(fault, _LONGEST_FAULT)}), "
            "and what was written before is safe in the book: begin again, and tell whoever looks "
            f"after the program{kept}."
        )
