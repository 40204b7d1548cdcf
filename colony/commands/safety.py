"""`colony book`: what was done, and going back."""

from typing import Annotated

import typer

from colony.commands.books import app
from colony.commands.completion import complete_tag
from colony.commands.opened import acting, reading
from colony.commands.options import AsJson, Book
from colony.commands.output import say, show_json, show_table
from colony.commands.read import day_or_none


@app.command("history")
def history(
    animal: Annotated[
        str | None, typer.Option(help="Only of this animal.", autocompletion=complete_tag)
    ] = None,
    tank: Annotated[str | None, typer.Option(help="Only of this tank.")] = None,
    since: Annotated[str | None, typer.Option(help="Only from that day on.")] = None,
    until: Annotated[str | None, typer.Option(help="Only up to that day.")] = None,
    act: Annotated[str | None, typer.Option(help="Part of the act's name: 'litter'.")] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0)] = 30,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show what was done in the book, by whom and when, the newest first."""
    from colony.acts.history import HistoryFilter, list_history

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
                one.number,
                one.at.astimezone().strftime("%Y-%m-%d %H:%M"),
                one.who,
                one.act,
                one.summary,
                one.undone_by,
            )
            for one in lines
        ),
        none="No act is in the journal like that.",
    )


@app.command("undo")
def undo(
    count: Annotated[int, typer.Argument(help="How many acts to go back.", min=1)] = 1,
    act: Annotated[
        int | None, typer.Option(help="Undo only the act of this number, wherever it stands.")
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Undo the last act, or the last N; an undo is an act too and can be undone by its number."""
    from colony.acts.undo import undo_act, undo_last

    with acting(book, "book undo") as session:
        undone = undo_last(session, count=count) if act is None else undo_act(session, number=act)
    if as_json:
        show_json(undone)
        return
    for one in undone.undone:
        say(f"Undone: act {one.number}, {one.act} ({one.summary}).")
