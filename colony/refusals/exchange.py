"""Refusals of a file as a whole: not there, not readable, without the column that is needed."""

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class NoSuchFile(WrongUse):
    """There is nothing at the path that was to be imported."""

    def __init__(self, path: str) -> None:
        super().__init__(f"There is no file or folder at {shown(path)}: check the path.")


class FileNotReadable(Refusal):
    """A file cannot be opened or read."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(f"{shown(path)} cannot be read ({why}): check its rights and the disk.")


class FileTooLarge(WrongUse):
    """A file is larger than any colony's list of animals."""

    def __init__(self, path: str, most_mb: int) -> None:
        super().__init__(
            f"{shown(path)} is larger than {most_mb} MB, too large for a list of animals: "
            "check that it is the right file, or import it in parts."
        )


class FileEmpty(WrongUse):
    """A file holds no line at all."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"{shown(path)} is empty: its first line must name the columns, such as tag,sire,dam."
        )


class NotPlainText(WrongUse):
    """A file is a workbook or another program's own format."""

    def __init__(self, path: str, what: str) -> None:
        super().__init__(
            f"{shown(path)} is {what}, not plain text: save the sheet as CSV and import that."
        )


class BrokenQuotes(WrongUse):
    """Quotation marks of a file do not match, so that its cells cannot be told apart."""

    def __init__(self, path: str, line: int) -> None:
        super().__init__(
            f"{shown(path)} has a quotation mark without its partner at or before line {line}: "
            "put a cell that holds one between two, and double it inside."
        )


class CellTooLong(WrongUse):
    """One cell holds more text than any cell should."""

    def __init__(self, path: str, line: int, longest: int) -> None:
        super().__init__(
            f"Line {line} of {shown(path)} has a cell of more than {longest} characters: "
            "shorten it, or look for a quotation mark that is never closed."
        )


class NoTagColumn(WrongUse):
    """No column of a sheet says which animal a row is about."""

    def __init__(self, path: str, headers: list[str]) -> None:
        there = ", ".join(shown(header) for header in headers[:12])
        super().__init__(
            f"No column of {shown(path)} is known as the tag of the animal; it has {there}: "
            "name the one that is, such as 'Animal no'.",
            again(map="Animal no=tag"),
        )


class BadMapping(WrongUse):
    """A mapping is not a column, an equals sign and a field."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} is no mapping: write COLUMN=FIELD, such as Ring=tag.")


class NoSuchField(WrongUse):
    """A mapping names a field that animals do not have."""

    def __init__(self, field: str, fields: list[str]) -> None:
        super().__init__(f"There is no field {shown(field)}: the fields are {', '.join(fields)}.")


class NoSuchColumn(WrongUse):
    """A mapping names a column that the file does not have."""

    def __init__(self, column: str, headers: list[str]) -> None:
        super().__init__(
            f"There is no column {shown(column)}: the columns are {', '.join(headers[:20])}."
        )


class FieldTwice(WrongUse):
    """Two columns of a sheet mean the same."""

    def __init__(self, first: str, second: str, field: str) -> None:
        super().__init__(
            f"The columns {shown(first)} and {shown(second)} both mean {field}: "
            "leave one out, such as the second.",
            again(map=f"{second}=ignore"),
        )


class UnknownChoice(WrongUse):
    """An option of the import has a value that it does not take."""

    def __init__(self, option: str, value: str, choices: list[str]) -> None:
        super().__init__(f"The {option} cannot be {shown(value)}: it takes {listed(choices)}.")


class OnlyForSheets(WrongUse):
    """An option for a breeder's own spreadsheet was used with a folder of this program's files."""

    def __init__(self, option: str) -> None:
        super().__init__(
            f"The {option} is for a single spreadsheet: a folder is written one way, and is taken whole or not at all."
        )


class NotAColonyFolder(WrongUse):
    """A folder is not one that an export wrote."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{shown(path)} is no exported colony ({why}): name a CSV file, or a folder that an export wrote.",
            act("book export"),
        )


class WouldOverwrite(Refusal):
    """An export would replace something that is there."""

    def __init__(self, path: str) -> None:
        super().__init__(
            f"Something is at {shown(path)} already: name another path, or confirm that it is to be replaced.",
            again(yes=True),
        )


class NotAnExport(Refusal):
    """An export would strew its files among others."""

    def __init__(self, path: str, sign: str) -> None:
        super().__init__(
            f"{shown(path)} is a folder of other things (it has no {sign}); nothing was written: name a "
            "folder that is not there yet, or confirm for an earlier export.",
            again(yes=True),
        )


class CannotWrite(Refusal):
    """An export cannot be written."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(
            f"{shown(path)} cannot be written ({why}); nothing was: check the folder, its rights and the disk."
        )
