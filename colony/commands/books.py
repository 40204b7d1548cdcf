"""`colony book`: the book itself."""

from typing import Annotated

import typer

from colony.commands.opened import acting, reading
from colony.commands.options import AsJson, Book, subject
from colony.commands.output import show_json, show_table
from colony.commands.read import today

app = subject("The book itself: import, export, check, settings.")


@app.command("check")
def check(book: Book = None, *, as_json: AsJson = False) -> None:
    """Look the whole book over; each finding names the command that mends it."""
    from colony.acts.checks import check_book

    with reading(book) as session:
        findings = check_book(session, today=today())
    if as_json:
        show_json(findings)
    else:
        show_table(
            ("", "Where", "Problem", "Mend"),
            (("wrong" if f.wrong else "odd", f.where, f.problem, f.mend) for f in findings),
            none="Nothing is wrong or odd.",
        )
    if any(finding.wrong for finding in findings):
        raise typer.Exit(1)


@app.command("settings")
def settings(
    key: Annotated[str | None, typer.Argument(help="Which setting.")] = None,
    value: Annotated[str | None, typer.Argument(help="What it is to be.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show the settings of the book, or set one: KEY VALUE."""
    from colony.acts.settings import set_setting, show_settings

    if key is not None and value is not None:
        with acting(book, "book settings") as session:
            set_setting(session, key=key, value=value)
    with reading(book) as session:
        known = show_settings(session)
    if as_json:
        show_json(known)
    else:
        shown = [one for one in known.items() if key in (None, one[0])]
        show_table(("Setting", "Value"), shown, none=f"There is no setting {key}.")


from colony.commands import safety  # noqa: E402, F401 - its verbs stand on the same subject
