"""Refusals of one cell of a file: what it holds, and what would be right there."""

from colony.refusals.base import Remedy, WrongUse, act, again, listed
from colony.refusals.notation import shown


class DayReadsTwoWays(WrongUse):
    """A date could be day first or month first."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} does not say which is the day and which the month: "
            "say the order of dates, dmy or mdy, or write it as 2026-03-09.",
            again(date_order="dmy"),
            again(date_order="mdy"),
        )


class DayNotInOrder(WrongUse):
    """A date is no day in the order that was said."""

    def __init__(self, text: str, order: str) -> None:
        super().__init__(
            f"{shown(text)} is no day when read as {order}: correct it, or say another order of dates.",
            again(date_order=""),
        )


class NotADayInASheet(WrongUse):
    """A date cannot be read at all."""

    def __init__(self, text: str, order: str) -> None:
        super().__init__(
            f"{shown(text)} is no date: write it as 2026-03-09 (the order of other dates is {order}), "
            "or 2026-03 or 2026 where no more is known.",
            again(date_order=""),
        )


class DayInTheFuture(WrongUse):
    """Something is said to have happened on a day that has not come."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} has not come yet: check the year.")


class DaysOutOfOrder(WrongUse):
    """Something happened before what must come first."""

    def __init__(self, what: str, day: str, first: str, first_day: str) -> None:
        super().__init__(f"It {what} on {day}, before it {first} on {first_day}: correct one.")


class NotOneOf(WrongUse):
    """A word is none of those that a column takes."""

    def __init__(self, text: str, what: str, choices: list[str]) -> None:
        super().__init__(f"{shown(text)} is no {what}: write {listed(choices)}.")


class UnknownSpeciesCell(WrongUse):
    """A species is not in the book."""

    def __init__(self, text: str, names: list[str]) -> None:
        super().__init__(
            f"There is no species {shown(text)} in the book: use {listed(names)}, "
            "or leave the cell empty for a hybrid, which follows from its parents."
        )


class NotAWholeNumber(WrongUse):
    """A count or a measure is no whole number."""

    def __init__(self, text: str, least: int) -> None:
        super().__init__(
            f"{shown(text)} is no whole number of {least} or more: write digits alone."
        )


class NotANumber(WrongUse):
    """A measure is no number."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} is no number: write digits and a point, such as 6.8.")


class CellNeeded(WrongUse):
    """A cell that must say something is empty."""

    def __init__(self, what: str) -> None:
        super().__init__(f"The {what} is missing: fill the cell, or delete the row.")


class MoreCellsThanHeadings(WrongUse):
    """A row is longer than the line of headings."""

    def __init__(self, cells: int, headings: int) -> None:
        super().__init__(
            f"The row has {cells} cells under {headings} headings: look for a delimiter inside a cell, and quote that cell."
        )


class RowTwice(WrongUse):
    """Two rows are about the same thing, and say different things."""

    def __init__(self, what: str, line: int, columns: list[str]) -> None:
        super().__init__(
            f"{shown(what)} stands in line {line} already with another {listed(columns, 'and')}: keep one of the two."
        )


class TransponderTwice(WrongUse):
    """Two animals have one transponder number."""

    def __init__(self, text: str, tag: str) -> None:
        super().__init__(
            f"Transponder {shown(text)} is that of {shown(tag)}: read both animals again."
        )


class BookSaysOtherwise(WrongUse):
    """A file contradicts the book in something that an import does not change."""

    def __init__(
        self, what: str, written: str, booked: str, right: str, remedies: tuple[Remedy, ...] = ()
    ) -> None:
        super().__init__(
            f"The {what} is {shown(booked)} in the book, not {shown(written)}: {right}.", *remedies
        )


class BookHasOtherSex(BookSaysOtherwise):
    """A file gives an animal another sex than the book."""

    def __init__(self, tag: str, written: str, booked: str, sex: str) -> None:
        edit = act("animal edit", tag, sex=sex)
        super().__init__("sex", written, booked, "correct the cell, or the book", (edit,))


class BookHasOtherTank(BookSaysOtherwise):
    """A file has an animal in another tank than the book."""

    def __init__(self, tag: str, tank: str, booked: str) -> None:
        move = act("tank move", tag, tank)
        super().__init__("tank", tank, booked, "correct the cell, or move it", (move,))


class BookHasOtherSires(BookSaysOtherwise):
    """A file gives a pup another sire than its litter."""

    def __init__(self, litter: str, written: str, booked: str) -> None:
        right = "a pup has its parents from its litter, so correct the cell or the litter"
        edit = act("litter edit", litter, sire="")
        super().__init__("sire", written, booked, right, (edit,))


class NothingByThatName(WrongUse):
    """A row names a tank, a litter or an animal that is neither in the files nor in the book."""

    def __init__(self, what: str, text: str, near: list[str]) -> None:
        hint = f"did you mean {listed(near)}?" if near else "add it first, or correct the cell."
        super().__init__(f"There is no {what} {shown(text)}: {hint}")


class ParentInDoubt(WrongUse):
    """A parent that has no row looks like a doubt, or like a known tag written otherwise."""

    def __init__(self, text: str, near: list[str]) -> None:
        hint = f" (did you mean {listed([shown(one) for one in near])}?)" if near else ""
        super().__init__(
            f"{shown(text)} is no tag in the book or in this file{hint}: name the tag alone, "
            "sires in doubt as B7=0.7 B8=0.3, or leave the cell empty; "
            "an animal that is called so needs a row of its own."
        )


class OwnParentCell(WrongUse):
    """An animal is named as its own parent."""

    def __init__(self, tag: str) -> None:
        super().__init__(f"{shown(tag)} is named as its own parent: name another, or none.")


class ParentOfWrongSex(WrongUse):
    """A dam is male, or a sire female."""

    def __init__(self, tag: str, role: str, sex: str, where: str) -> None:
        right = {"dam": "a dam is female", "sire": "a sire is male"}[role]
        super().__init__(f"{shown(tag)} is {sex} {where}, and {right}: correct one of the two.")


class DamAndSire(WrongUse):
    """One animal is a dam in one row and a sire in another."""

    def __init__(self, tag: str, role: str, other: str, line: int) -> None:
        super().__init__(
            f"{shown(tag)} is named as {role} here and as {other} in line {line}: correct one of the two."
        )


class ParentTooYoung(WrongUse):
    """A parent was not born before its pup."""

    def __init__(self, parent: str, parent_born: str, pup: str, pup_born: str) -> None:
        super().__init__(
            f"{shown(parent)}, born {parent_born}, cannot be a parent of {shown(pup)}, born {pup_born}: correct a date or the parent."
        )


class OwnAncestorCell(WrongUse):
    """Parents go round in a circle."""

    def __init__(self, circle: list[str]) -> None:
        super().__init__(
            f"Parents go in a circle: {' < '.join(circle)} (each the pup of the next): correct one of these parents."
        )


class TwoTanksOnADay(WrongUse):
    """An animal is placed in two tanks at once."""

    def __init__(self, tag: str, other: str, line: int) -> None:
        where = f"line {line}" if line else "the book"
        super().__init__(
            f"{shown(tag)} is in {shown(other)} on some of these days ({where}): no animal is in two tanks on one day."
        )


class RowCannotBe(WrongUse):
    """The cells of a row contradict each other."""

    def __init__(self, rule: str) -> None:
        super().__init__(f"{rule}: correct this row.")


class BookHasItOtherwise(WrongUse):
    """A row of a folder is in the book with other facts."""

    def __init__(self, columns: list[str]) -> None:
        super().__init__(
            f"The book has this with another {listed(columns, 'and')}: a folder only adds, so correct the book or the row."
        )
