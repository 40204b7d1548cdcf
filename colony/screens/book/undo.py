"""Take acts back, and say what was taken back."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from colony.acts.book.undo import Undone, undo_act, undo_last
from colony.screens.frame.refused import Tried, tried

if TYPE_CHECKING:
    from colony.screens.app import ColonyApp


def take_back(app: "ColonyApp", number: int | None = None) -> None:
    """Undo the last act, or one act by its number, in a thread.

    What somebody else wrote and nobody was told of here yet is not taken back unseen.
    """
    seen = app.book_session.mark

    def undo() -> Undone:
        if number is None:
            return app.book_session.act("undo", undo_last, seen=seen)
        return app.book_session.act("undo", undo_act, seen=seen, number=number)

    _in_thread(app, undo)


def _in_thread(app: "ColonyApp", undo: Callable[[], Undone]) -> None:
    def work() -> None:
        app.call_from_thread(_tell, app, tried(undo))

    app.run_worker(work, thread=True, exclusive=True, group="undo")


def _tell(app: "ColonyApp", done: Tried[Undone]) -> None:
    if done.answer is None:
        app.say(done.problem, "refused")
        return
    taken = "; ".join(one.summary for one in done.answer.undone)
    app.say(f"Taken back: {taken}. In the log (8), z on that undo brings it back.", "written")
    app.changed()
