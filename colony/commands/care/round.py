"""`colony round`: today's work in walking order, ticked off or skipped."""

import sys
from itertools import groupby
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book, On, Yes
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.commands.cli.remedies import command_of
from colony.notation.care import EVERYTHING, TASKS
from colony.notation.cautions import ELECTRICITY, OWN_TOOLS
from colony.notation.fields.care import (
    ANSWER,
    ANSWERED_PLACE,
    DONE_FACTS,
    HOW_OFTEN_FACTS,
    SKIP_FACTS,
    TASK_FACTS,
    WHERE_FACTS,
    WHICH_ALARM,
)

if TYPE_CHECKING:
    from colony.acts.care.work import WorkLine

app = subject(invoke_without_command=True)

_TASKS = ", ".join(TASKS)

Task = Annotated[str, typer.Argument(help=f"A task, or all: {_TASKS}, or your own.")]
Places = Annotated[list[str], typer.Argument(help="Tanks, systems, a row such as A1..A6, or all.")]


@app.callback()
def round_(
    ctx: typer.Context,
    book: Book = None,
    *,
    all_: Annotated[bool, typer.Option("--all", help="Also what is done already.")] = False,
    as_json: AsJson = False,
) -> None:
    """List today's work, clean tanks before isolated ones. Without a verb: the list."""
    if ctx.invoked_subcommand is not None:
        return
    from colony.acts.book.day import alarms_today
    from colony.acts.care.work import todays_round

    with reading(book) as session:
        lines = todays_round(session, today=today())
        alarms = () if as_json else alarms_today(session, today=today())
    shown = [line for line in lines if line.is_open or all_ or as_json]
    if as_json:
        show_json(shown)
        return
    warn(f"{alarm.sentence} ({command_of(alarm.remedy)})." for alarm in alarms)
    for (system, water), work in groupby(shown, key=lambda line: (line.system, line.water)):
        say(f"\n{system}: {water} water")
        places = groupby(work, key=lambda line: line.place)
        show_table(
            ("Place", "Work"),
            ((place, ", ".join(map(_in_words, lines))) for place, lines in places),
        )
    if not shown:
        say("Nothing is left to do." if lines else "No task has a rhythm: colony round begin.")
    if shown:
        say(f"{OWN_TOOLS} {ELECTRICITY}")
    warn(dict.fromkeys(f"{line.task}: {line.caution}" for line in shown if line.caution))


@app.command("done")
@with_options(DONE_FACTS, new=True)
def done(
    task: Task,
    places: Places,
    typed: Typed,
    book: Book = None,
    *,
    yes: Yes = False,
    as_json: AsJson = False,
) -> None:
    """Tick a task off at tanks, systems or a row of tanks at once; a value is never left out."""
    from colony.acts.care.round import tick
    from colony.refusals.care import EverythingEverywhere

    if task.casefold() == EVERYTHING and EVERYTHING in places and not yes:
        if not sys.stdin.isatty():
            raise EverythingEverywhere
        question = "This says that all open work of the whole house is done. Is it?"
        typer.confirm(question, abort=True, err=True)

    with acting(book, "round done") as session:
        ticked = tick(
            session,
            task=task,
            places=places,
            **read_typed(DONE_FACTS, typed, new=True),
            today=today(),
        )
    if as_json:
        show_json(ticked)
        return
    say(f"{ticked.task} done: {', '.join(ticked.places)}.")
    warn(ticked.cautions)
    if ticked.already:
        say(f"Done before: {', '.join(ticked.already)}.")
    if ticked.left:
        warn([f"Still open, since a value is written down there: {', '.join(ticked.left)}."])


@app.command("skip")
@with_options(SKIP_FACTS, new=True)
def skip(
    task: Task,
    places: Places,
    typed: Typed,
    book: Book = None,
) -> None:
    """Let a task go for a day, with the reason; tomorrow it is due again."""
    from colony.acts.care.round import skip as skip_work

    with acting(book, "round skip") as session:
        skipped = skip_work(
            session,
            task=task,
            places=places,
            **read_typed(SKIP_FACTS, typed, new=True),
            today=today(),
        )
    say(f"{skipped.task} skipped: {', '.join(skipped.places)}.")


@app.command("answer")
@with_options((WHICH_ALARM,))
def answer(
    place: Annotated[str, argument(ANSWERED_PLACE)],
    done: Annotated[str, argument(ANSWER)],
    typed: Typed,
    book: Book = None,
) -> None:
    """Answer the alarms of a place: what was done is kept, and they are not told again."""
    from colony.acts.health.answers import answer_alarm

    with acting(book, "round answer") as session:
        answered = answer_alarm(
            session,
            place=place,
            answer=done,
            **read_typed((WHICH_ALARM,), typed),
            today=today(),
        )
    say(f"{answered.place}: {', '.join(answered.alarms)} answered.")


@app.command("count")
def count(
    tank: Annotated[str, typer.Argument(help="The tank.")],
    counted: Annotated[int, typer.Argument(help="How many were seen.", min=0, max=10_000)],
    on: On = "today",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a headcount; what does not agree with the book is named."""
    from colony.acts.care.headcount import count_heads

    with acting(book, "round count") as session:
        heads = count_heads(session, tank=tank, counted=counted, on=day(on), today=today())
    if as_json:
        show_json(heads)
        return
    say(f"{heads.tank}: {heads.counted} counted, {len(heads.in_the_book)} in the book.")
    warn(heads.warnings)


@app.command("begin")
def begin(book: Book = None) -> None:
    """Begin the round with the usual rhythms (common practice, no source); change any later."""
    from colony.acts.care.rhythms import begin_round

    with acting(book, "round begin") as session:
        begun = len(begin_round(session, today=today()))
    say(f"{begun} rhythms are set: colony round rhythms shows them, colony round today's work.")


@app.command("rhythm")
@with_options((*HOW_OFTEN_FACTS, *WHERE_FACTS), new=True)
def rhythm(
    task: Annotated[str, typer.Argument(help=f"A task: {_TASKS}, or your own.")],
    typed: Typed,
    book: Book = None,
    *,
    drop: Annotated[bool, typer.Option("--drop", help="Take this rhythm away.")] = False,
) -> None:
    """Set how often a task is done; a tank's own rhythm goes before its role's and everybody's."""
    from colony.acts.care.rhythms import Where, drop_rhythm, set_rhythm

    where = Where(**read_typed(WHERE_FACTS, typed, new=True))
    often = read_typed(HOW_OFTEN_FACTS, typed, new=True)
    with acting(book, "round rhythm") as session:
        if drop:
            drop_rhythm(session, task=task, where=where)
        else:
            set_rhythm(session, task=task, where=where, **often, today=today())
    say(f"{task} {where}: {'no rhythm any more' if drop else _often(**often)}.")


@app.command("task")
@with_options(TASK_FACTS)
def task_(
    name: Annotated[str, typer.Argument(help="What your own task is called.")],
    typed: Typed,
    book: Book = None,
    *,
    drop: Annotated[bool, typer.Option("--drop", help="Take it off the list.")] = False,
) -> None:
    """Put a task of your own on the list, with what to mind; then give it a rhythm."""
    from colony.acts.care.tasks import drop_task, set_task

    with acting(book, "round task", begin=True) as session:
        if drop:
            say(f"{drop_task(session, name=name)} is no task of the house's own any more.")
            return
        line = set_task(session, name=name, **read_typed(TASK_FACTS, typed))
    say(f"{line.task} is on the list, at each {line.per}. {line.caution or ''}".rstrip())
    say(f"When it is due: colony round rhythm '{line.task}' --every 7")


@app.command("tasks")
def tasks(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the tasks of the round: where each is done, and what to mind."""
    from colony.acts.care.tasks import list_tasks

    with reading(book) as session:
        lines = list_tasks(session)
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Task", "At each", "Your own", "Mind"),
        ((line.task, line.per, "yes" if line.own else None, line.caution) for line in lines),
    )


@app.command("rhythms")
def rhythms(book: Book = None, *, as_json: AsJson = False) -> None:
    """List how often each task is done, and where."""
    from colony.acts.care.rhythms import list_rhythms

    with reading(book) as session:
        lines = list_rhythms(session)
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Task", "For", "How often", "Since"),
        (
            (
                line.task,
                line.tank or line.system or line.role or "all",
                _often(line.times_a_day, line.every_days),
                line.started,
            )
            for line in lines
        ),
        none="No task has a rhythm: colony round begin.",
    )


@app.command("order")
def order(
    tanks: Annotated[list[str], typer.Argument(help="Tanks in the order of your walk.")],
    book: Book = None,
) -> None:
    """Set your way through the house; tanks that are not named follow as they were."""
    from colony.acts.care.rhythms import set_walking_order

    with acting(book, "round order") as session:
        walk = set_walking_order(session, tanks=tanks)
    say(f"The walk: {', '.join(walk)}.")


def _in_words(line: "WorkLine") -> str:
    """A task in few words: how often it is done already, how late it is, why it was let go."""
    last = "never done" if line.last_done is None else f"last {line.last_done}"
    late = f"{line.overdue_days}d overdue, {last}" if line.is_open and line.overdue_days else ""
    skipped = f"skipped: {line.skipped}" if line.skipped else ""
    done = "" if line.is_open or line.skipped else "done"
    more = "; ".join(word for word in (done, late, skipped) if word)
    return f"{line.in_words} ({more})" if more else line.in_words


def _often(times_a_day: int, every_days: int) -> str:
    if every_days > 1:
        return f"every {every_days} days"
    return "once a day" if times_a_day == 1 else f"{times_a_day} times a day"
