"""`colony book`: what was done, going back, and copies that outlive an accident."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import acting, opened, reading
from colony.commands.cli.options import LARGEST, Book, Yes
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day_or_none
from colony.refusals.history import UndoAsksFirst

if TYPE_CHECKING:
    from colony.acts.book.undo_asked import Foreseen


app = subject()


@app.command("history")
def history(
    animal: Annotated[
        str | None, typer.Option(help="Only of this animal.", autocompletion=complete_tag)
    ] = None,
    tank: Annotated[str | None, typer.Option(help="Only of this tank.")] = None,
    since: Annotated[str | None, typer.Option(help="Only from that day on.")] = None,
    until: Annotated[str | None, typer.Option(help="Only up to that day.")] = None,
    act: Annotated[str | None, typer.Option(help="Part of the act's name: 'litter'.")] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0, max=LARGEST)] = 30,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show what was done in the book, by whom and when, the newest first."""
    from colony.acts.book.history import HistoryFilter, list_history

    wanted = HistoryFilter(animal, tank, day_or_none(since), day_or_none(until), act)
    with reading(book) as session:
        lines = list_history(session, wanted=wanted, most=limit or None)
    if as_json:
        show_json(lines)
        return
    show_table(
        (">Act", "When", "Who", "What", "Told", "Undone by"),
        (
            (
                line.number,
                line.at.astimezone().strftime("%Y-%m-%d %H:%M"),
                line.who,
                line.act,
                line.summary,
                line.undone_by,
            )
            for line in lines
        ),
        none="No act is in the journal like that.",
    )


@app.command("undo")
def undo(
    count: Annotated[
        int, typer.Argument(help="How many of your acts to go back.", min=1, max=LARGEST)
    ] = 1,
    act: Annotated[
        int | None,
        typer.Option(
            help="Undo only the act of this number, wherever it stands, whoever wrote it."
        ),
    ] = None,
    book: Book = None,
    *,
    yes: Yes = False,
    as_json: AsJson = False,
) -> None:
    """Undo your last act, or your last N; an undo is an act too and can be undone by its number.

    An import, more than 20 rows, and what another person or another day wrote are asked about
    first; in a script they are refused without --yes.
    """
    from colony.acts.book.undo import undo_acts
    from colony.acts.book.undo_asked import foresee_undo

    with reading(book) as session:
        foreseen = foresee_undo(session, count=count, number=act)
    if foreseen.doubts and not yes:
        _ask_to_undo(foreseen)
    with acting(book, "book undo") as session:
        undone = undo_acts(session, numbers=foreseen.numbers)
    if as_json:
        show_json(undone)
        return
    for line in undone.undone:
        say(f"Undone: act {line.number}, {line.act} ({line.summary}).")


@app.command("backup")
def backup(
    to: Annotated[
        Path | None, typer.Option(help="Where to; without: beside the other backups.")
    ] = None,
    book: Book = None,
    *,
    listed: Annotated[bool, typer.Option("--list", help="Only list the backups.")] = False,
    as_json: AsJson = False,
) -> None:
    """Back the book up while others may write in it; the copy is verified by reading all of it."""
    from colony.acts.book.backups import back_up

    if listed:
        _list_backups(book, as_json=as_json)
        return
    with opened(book) as kept:
        made = back_up(kept, to=to)
    if as_json:
        show_json(made)
    else:
        say(f"Backed up and verified: {made.path} ({made.bytes:,} bytes).")


@app.command("restore")
def restore(
    copy: Annotated[str, typer.Argument(help="A backup: its name, a path, or newest.")],
    book: Book = None,
    *,
    yes: Yes = False,
    as_json: AsJson = False,
) -> None:
    """Put a backup in the place of the book; what was there is kept."""
    from colony.acts.book.backups import restore_backup
    from colony.store.location import book_location

    location = book_location(book)
    if not yes:
        typer.confirm("Put that backup in the place of the book?", abort=True, err=True)
    done = restore_backup(location, copy=copy)
    if as_json:
        show_json(done)
        return
    say(f"Restored from {done.restored}.")
    if done.kept:
        say(f"What was there is kept: {done.kept}.")
    for log in done.set_aside:
        say(f"Set aside: {log}. It is of the file that was there and may hold its last acts.")


@app.command("copy")
def copy(
    source: Annotated[str, typer.Argument(help="The book: a file or a PostgreSQL URL.")],
    to: Annotated[str, typer.Argument(help="A free path, or the URL of an empty database.")],
    *,
    as_json: AsJson = False,
) -> None:
    """Copy a book into another file or database, and prove row by row that both are equal."""
    from colony.store.backups.transfer import copy_book

    with opened(source) as kept:
        written = copy_book(kept, to)
    if as_json:
        show_json(written)
        return
    say(f"{written.rows} rows and {written.acts} acts are in {written.location}.")
    say(f"Read back and equal, row by row; SHA-256 of all rows: {written.digest}.")


@app.command("rebuild")
def rebuild(
    to: Annotated[str, typer.Argument(help="A free path, or the URL of an empty database.")],
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write a new book from the journal alone; the one that is open is only read."""
    from colony.store.backups.transfer import rebuild_book

    with opened(book) as kept:
        written = rebuild_book(kept, to)
    if as_json:
        show_json(written)
        return
    say(f"{written.acts} acts of the journal made {written.rows} rows in {written.location}.")


@app.command("recount")
def recount(book: Book = None, *, as_json: AsJson = False) -> None:
    """Let the counters that number new rows on a server go on after the rows that are there."""
    from colony.acts.book import backups

    with opened(book) as kept:
        raised = backups.recount(kept)
    if as_json:
        show_json(raised)
        return
    for counter in raised:
        say(f"{counter.table}: counted on from {counter.last}, now from {counter.newest}.")
    if not raised:
        say("Every counter is past its rows already.")


def _ask_to_undo(foreseen: "Foreseen") -> None:
    """Ask at a terminal; a script has to have said yes already."""
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise UndoAsksFirst(foreseen.in_words, foreseen.doubts)
    for act in foreseen.acts:
        at = act.at.astimezone().strftime("%Y-%m-%d %H:%M")
        warn([f"Act {act.number}, {act.act}, by {act.who}, {at}: {act.summary}"])
    typer.confirm(f"Take it back ({', '.join(foreseen.doubts)})?", abort=True, err=True)


def _list_backups(book: str | None, *, as_json: bool) -> None:
    from colony.acts.book.backups import list_backups
    from colony.store.location import book_location

    lines = list_backups(book_location(book))
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Backup", "Made", "Why", ">Bytes", "Tested"),
        (
            (
                line.name,
                line.made.astimezone().strftime("%Y-%m-%d %H:%M"),
                line.reason,
                line.bytes,
                line.tested and line.tested.astimezone().date(),
            )
            for line in lines
        ),
        none="There is no backup yet: colony book backup.",
    )
