"""Take acts back, ask first where much hangs on them, and say what was taken back."""

from textual.message import Message

from colony.acts.book.undo import Undone, undo_acts
from colony.acts.book.undo_asked import Foreseen, foresee_undo
from colony.screens.frame.application import Application
from colony.screens.frame.outcome import Outcome, attempt
from colony.screens.frame.question import Question
from colony.store.journal.entries import Mark

_WAIT = " Let go of the key for a moment, then it takes back one more."


async def take_back(app: Application, number: int | None = None) -> None:
    """Undo one's own last act, or one act by its number, in a thread.

    What somebody else wrote and nobody was told of here yet is not taken back unseen, and a key
    that is held takes back one act, not all of them.
    """
    if not app.undo_key.lets_through(app.pressed_at):
        app.say(f"{app.status.words.removesuffix(_WAIT)}{_WAIT}", app.status.kind)
        return
    app.undo_key.under_way = True
    seen = app.book_session.mark
    found = await app.run_worker(lambda: _foresee(app, number), thread=True, group="undo").wait()
    if found.answer is None:
        _refused(app, found.problem)
    elif found.answer.doubts:
        await _ask(app, found.answer, seen)
    else:
        _undo(app, found.answer, seen)


def _foresee(app: Application, number: int | None) -> Outcome[Foreseen]:
    return attempt(lambda: app.book_session.read(foresee_undo, number=number))


async def _ask(app: Application, found: Foreseen, seen: Mark) -> None:
    """Ask; the next keys wait until the question is there, so that none of them goes astray."""

    def answered(yes: bool | None) -> None:
        app.undo_key.release()
        if yes:
            app.undo_key.under_way = True
            _undo(app, found, seen, asked=True)
        else:
            app.say("Nothing was taken back.")

    await app.push_screen(
        Question(f"Take back {found.in_words}?", ", ".join(found.doubts)), answered
    )


def _undo(app: Application, found: Foreseen, seen: Mark, *, asked: bool = False) -> None:
    """Undo what was foreseen, in a thread."""

    def work() -> None:
        done = attempt(
            lambda: app.book_session.act("undo", undo_acts, seen=seen, numbers=found.numbers)
        )
        if done.answer is None:
            app.call_from_thread(_refused, app, done.problem)
        else:
            app.call_from_thread(_tell, app, done.answer, asked=asked)

    app.run_worker(work, thread=True, group="undo")


def _refused(app: Application, problem: str) -> None:
    app.undo_key.release()
    app.say(problem, "refused")


def _tell(app: Application, done: Undone, *, asked: bool) -> None:
    taken = "; ".join(act.summary for act in done.undone)
    app.say(f"Taken back: {taken}. In the log (8), z on that undo brings it back.", "written")
    app.changed()
    if asked:
        app.undo_key.release()
    else:
        app.undo_key.done(Message().time)
