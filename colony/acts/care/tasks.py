"""The house's own list of tasks for the round, beside those that every house begins with."""

from dataclasses import dataclass

from sqlmodel import Session, col, func, select

from colony.notation.care import EVERYTHING, TASK_PLACES, TASKS
from colony.notation.fields.care import TASK
from colony.notation.tags import parse_tag
from colony.notation.words import parse_word
from colony.records import CareRhythm, HouseTask
from colony.refusals.care import NotAnOwnTask, TaskIsFixed
from colony.store.journal.journal import tell
from colony.store.readers.care import read_tasks


@dataclass(frozen=True)
class TaskLine:
    """One task: where it is done, what to mind, and whether it is the house's own."""

    task: str
    per: str
    caution: str | None
    own: bool


def set_task(
    session: Session, *, name: str, per: str | None = None, caution: str | None = None
) -> TaskLine:
    """Put a task on the house's list, or correct it; a usual one can be given a caution.

    None leaves a fact as it is, and an empty caution takes it away.

    Raises
    ------
    BadTag
    TaskIsFixed
        It is a usual task, and something but its caution is to be set.
    """
    word = parse_tag(" ".join(name.split()).casefold())
    if word == EVERYTHING or (word in TASKS and per is not None):
        raise TaskIsFixed(word)
    row = _seek(session, word) or HouseTask(name=word)
    row.per = per or row.per
    row.caution = row.caution if caution is None else caution or None
    session.add(row)
    session.flush()
    tell(session, f"{row.name} is a task of the round{f': {caution}' if caution else ''}")
    return next(line for line in list_tasks(session) if line.task == row.name)


def drop_task(session: Session, *, name: str) -> str:
    """Take a task of the house's own off the list, and its rhythms; what was done stays.

    Raises
    ------
    UnknownWord, NotAnOwnTask
    """
    word = parse_word(name, tuple(read_tasks(session)), TASK.words_for_it)
    row = _seek(session, word)
    if row is None:
        raise NotAnOwnTask(word)
    if word not in TASKS:
        for rhythm in session.exec(select(CareRhythm).where(CareRhythm.task == word)):
            session.delete(rhythm)
    session.delete(row)
    session.flush()
    tell(session, f"{word} is no task of the house's own any more")
    return word


def list_tasks(session: Session) -> list[TaskLine]:
    """Every task, in the order in which they are done at one place."""
    own = set(session.exec(select(HouseTask.name)))
    return [
        TaskLine(
            name,
            task.per if task.per == "system" or not task.needs_animals else TASK_PLACES[0],
            task.caution or None,
            name in own,
        )
        for name, task in read_tasks(session).items()
    ]


def _seek(session: Session, word: str) -> HouseTask | None:
    return session.exec(select(HouseTask).where(func.lower(col(HouseTask.name)) == word)).first()
