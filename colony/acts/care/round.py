"""The round: work ticked off or skipped with a reason."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from colony.acts.animals.days import refuse_future
from colony.acts.care.places import find_places, places_for
from colony.acts.care.ticks import write_done
from colony.acts.care.work import work_of
from colony.acts.water.changes import change_water
from colony.notation.care import EVERYTHING
from colony.notation.fields.care import TASK
from colony.notation.words import parse_word
from colony.planning.care.walking_order import WorkPlace
from colony.refusals.care import NothingToTick, TaskTakesValue
from colony.store.journal.journal import tell
from colony.store.readers.care import Floor, read_floor


@dataclass(frozen=True)
class Ticked:
    """A task written down at some places; those that were complete already are left alone."""

    task: str
    places: tuple[str, ...]
    already: tuple[str, ...]
    on: date
    left: tuple[str, ...] = ()
    """What takes a value and stays open, as ``headcount at N1``."""

    cautions: tuple[str, ...] = ()
    """What the house minds about the tasks."""


def tick(
    session: Session,
    *,
    task: str,
    places: Sequence[str],
    on: date,
    note: str | None = None,
    today: date,
) -> Ticked:
    """Write down that a task was done at tanks, systems or a row of tanks, once.

    `task` may be ``all``: then everything that is open at those places is done, but for what
    takes a value: that stays open and is named. A water
    change is written with the litres of the system's regime.

    Raises
    ------
    UnknownWord, NoSuchPlace, RunBackwards, NothingToTick, NotYet
        And what `change_water` refuses.
    TaskTakesValue
        It is done by another act, with the number, the food or the values.
    """
    refuse_future("This work", on, today)
    floor = read_floor(session, today)
    task = _word(floor, task)
    wanted, kind = _at_places(session, floor, task, places, on), floor.task(task)
    if kind.takes:
        first = wanted[0][1].name if wanted else ""
        raise TaskTakesValue(task, kind.takes, kind.act, first)
    still = [(name, place) for name, place, is_open in wanted if is_open]
    todo = [(name, place) for name, place in still if not floor.task(name).takes]
    left = tuple(f"{name} at {place.name}" for name, place in still if floor.task(name).takes)
    if not todo:
        raise NothingToTick(task, list(places), left)
    for name, place in todo:
        if name == "water change":
            change_water(session, system=place.name, on=on, note=note, anyway=True, today=today)
        else:
            write_done(session, floor, name, place, on, note=note)
    done = tuple(dict.fromkeys(place.name for _, place in todo))
    tell(session, f"{task} done: {', '.join(done)}")
    already = {place.name for _, place, is_open in wanted if not is_open} - set(done)
    cautions = dict.fromkeys(floor.task(name).caution for name, _ in todo)
    return Ticked(task, done, tuple(sorted(already)), on, left, tuple(filter(None, cautions)))


def skip(
    session: Session, *, task: str, places: Sequence[str], why: str, on: date, today: date
) -> Ticked:
    """Let a task go for a day, with the reason; it is due again the day after.

    Raises
    ------
    UnknownWord, NoSuchPlace, RunBackwards, NothingToTick, NotYet
    """
    refuse_future("Skipping this work", on, today)
    floor = read_floor(session, today)
    task = _word(floor, task)
    wanted = _at_places(session, floor, task, places, on)
    todo = [(name, place) for name, place, is_open in wanted if is_open]
    if not todo:
        raise NothingToTick(task, list(places))
    for name, place in todo:
        write_done(session, floor, name, place, on, skipped_why=why)
    left = tuple(dict.fromkeys(place.name for _, place in todo))
    tell(session, f"{task} skipped at {', '.join(left)}: {why}")
    return Ticked(task, left, (), on)


def _at_places(
    session: Session, floor: Floor, task: str, words: Sequence[str], on: date
) -> list[tuple[str, WorkPlace, bool]]:
    """Each (task, place) that is meant, and whether it is still open that day."""
    work = {(piece.task, piece.place.name): piece for piece in work_of(session, floor, on)}
    if task == EVERYTHING:
        meant = {place.name for place in find_places(floor, words)}
        return [
            (piece.task, piece.place, piece.is_open)
            for piece in work.values()
            if piece.place.name in meant
        ]
    return [
        (task, place, (task, place.name) not in work or work[task, place.name].is_open)
        for place in places_for(floor.task(task), floor, words)
    ]


def _word(floor: Floor, task: str) -> str:
    return parse_word(task, (*floor.tasks, EVERYTHING), TASK.words_for_it)
