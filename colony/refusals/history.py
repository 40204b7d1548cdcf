"""Refusals of going back: nothing to undo, something builds on it, the book moved on."""

from collections.abc import Sequence

from colony.refusals.base import Refusal, WrongUse, act, again
from colony.refusals.notation import shown

_MOST = 3


class NothingToUndo(Refusal):
    """Somebody has not so many acts of their own that can be undone."""

    def __init__(self, asked: int, there: int, who: str) -> None:
        many = ("is no act", "is only 1 act")[there] if there < 2 else f"are only {there} acts"  # noqa: PLR2004 - one and many
        super().__init__(
            f"There {many} of {shown(who)} to undo, not {asked}; nothing was written: "
            "look in the history, and name any other act by its number.",
            act("book undo", act=""),
        )


class UndoAsksFirst(Refusal):
    """Much would be taken back, or what somebody may still count on, and nobody is there to ask."""

    def __init__(self, what: str, doubts: Sequence[str]) -> None:
        super().__init__(
            f"Taking back {what} asks for a yes first ({', '.join(doubts)}); nothing was written: "
            "confirm if that is meant.",
            again(yes=True),
        )


class NoSuchAct(WrongUse):
    """The journal has no act of that number."""

    def __init__(self, number: int) -> None:
        super().__init__(
            f"There is no act {number} in the journal: look in the history.", act("book history")
        )


class CannotBeUndone(Refusal):
    """An act is one that is not undone: undone already, or the beginning of the book."""

    def __init__(self, number: int, what: str) -> None:
        super().__init__(f"Act {number} cannot be undone: {what}; nothing was written.")


class LaterActDepends(Refusal):
    """Acts that were written later build on the one that was to be undone."""

    def __init__(self, undone: str, later: Sequence[tuple[int, str]], count: int | None) -> None:
        named = "; ".join(words for _, words in later[-_MOST:])
        more = f" and {len(later) - _MOST} more" if len(later) > _MOST else ""
        since = [act("book undo", str(count))] if count else []
        super().__init__(
            f"{undone} cannot be undone alone, later acts depend on it: {named}{more}: "
            f"undo the last of them first{', or everything since' if since else ''}.",
            act("book undo", act=str(later[-1][0])),
            *since,
        )


class ComesBackAgainst(Refusal):
    """What an undo would bring back is forbidden by what was written since."""

    def __init__(
        self, undone: Sequence[tuple[int, str]], problem: str, against: tuple[int, str] | None
    ) -> None:
        what = "; ".join(f"act {number} ({words})" for number, words in undone[:_MOST])
        why, _, _ = problem.rstrip(".").partition(": correct")
        sentence = f"Undoing {what} is refused, {why}; nothing was written: "
        if against is None:
            super().__init__(
                f"{sentence}acts since then forbid it, look in the history.", act("book history")
            )
        else:
            number, words = against
            super().__init__(
                f"{sentence}act {number} ({words}) stands against it, undo that one first.",
                act("book undo", act=str(number)),
            )


class RowIsOtherwise(Refusal):
    """A row is not as the journal says, so that going back would overwrite something."""

    def __init__(self, number: int, place: str) -> None:
        super().__init__(
            f"Act {number} cannot be undone: {place} is not as that act left it; "
            "nothing was written: look the book over.",
            act("book check"),
        )


class JournalOutgrown(Refusal):
    """The journal tells of a table or column that this version of the book no longer has."""

    def __init__(self, what: str) -> None:
        super().__init__(
            f"The journal tells of {shown(what)}, which this version of the book no longer has: "
            "correct the facts by hand instead; nothing was written."
        )


class JournalDamaged(Refusal):
    """What an entry of the journal tells cannot be read."""

    def __init__(self, number: int) -> None:
        super().__init__(
            f"What act {number} of the journal says cannot be read: the book is damaged; "
            "put a backup back.",
            act("book restore", "newest"),
        )


class ChangedMeanwhile(Refusal):
    """What was being edited was changed by another act in the meantime."""

    def __init__(self, changes: Sequence[str]) -> None:
        super().__init__(
            f"Somebody else changed this meanwhile: {'; '.join(changes)}; "
            "nothing was written: look again, and repeat what still holds."
        )


class BookWasReplaced(Refusal):
    """A backup was restored while something was being edited."""

    def __init__(self) -> None:
        super().__init__(
            "The book was replaced meanwhile by a restored backup; "
            "nothing was written: look again, and repeat what still holds."
        )


class DoneAlready(Refusal):
    """An act is sent a second time: it is not written twice."""

    exit_code = 0

    def __init__(self, number: int, at: str, summary: str) -> None:
        super().__init__(
            f"This was written already, as act {number} on {at[:10]} ({summary}): nothing was "
            "written again."
        )


class OutcomeNotKnown(Refusal):
    """The database went away while an act was written, and cannot be asked whether it was."""

    def __init__(self, location: str, act_id: str) -> None:
        super().__init__(
            f"{location} went away while the act was written: whether it was is not known; look in "
            f"the history, and sent again with COLONY_ACT_ID={act_id} it is not written twice.",
            act("book history"),
        )


class NoSuchSeal(WrongUse):
    """What is no seal."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{shown(text)} is no seal: it is the number of an act and 32 letters, "
            "such as 48-ABCDEFGH-IJKLMNOP-QRSTUVWX-YZ234567."
        )


class NothingToSeal(Refusal):
    """A book in which nothing was written."""

    def __init__(self) -> None:
        super().__init__("Nothing is written in this book yet: there is nothing to seal.")
