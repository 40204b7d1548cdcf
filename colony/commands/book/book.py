"""`colony book`: the book itself."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.opened import acting, reading, trying
from colony.commands.cli.options import Book, Yes
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.commands.cli.remedies import command_of, ways_of
from colony.refusals.base import in_ways

if TYPE_CHECKING:
    from colony.acts.book.checks.finding import Finding
    from colony.acts.book.importing.imported import Imported


app = subject()

FINDING_KEYS = ("check", "wrong", "where", "problem", "level", "accepted")


@app.command("check")
def check(
    seal: Annotated[
        str | None, typer.Option(help="Only hold the journal against a seal: 48-ABCD...")
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Look the whole book over; each finding names the command that corrects it."""
    from colony.acts.book.check import check_book

    if seal is not None:
        _check_seal(book, seal, as_json=as_json)
        return
    with reading(book) as session:
        findings = check_book(session, today=today())
    rows = [_row_of(finding) for finding in findings]
    if as_json:
        show_json(rows)
    else:
        show_table(
            ("", "Where", "Problem", "Correct with"),
            ((r["level"], r["where"], r["problem"], r["mend"]) for r in rows if not r["accepted"]),
            none="Nothing is wrong or odd.",
        )
        show_table(
            ("Accepted", "Problem", "Because"),
            ((r["where"], r["problem"], r["accepted"]) for r in rows if r["accepted"]),
        )
    if any(finding.wrong for finding in findings):
        raise typer.Exit(1)


def _check_seal(book: str | None, seal: str, *, as_json: bool) -> None:
    from colony.acts.book.seal import check_seal

    with reading(book) as session:
        answer = check_seal(session, seal=seal)
    if as_json:
        show_json(answer)
    elif answer.holds:
        say(f"The seal holds: nothing up to act {answer.acts} was changed since.")
    else:
        say(f"The seal does not hold: {answer.problem}.")
    if not answer.holds:
        raise typer.Exit(1)


@app.command("seal")
def seal_(book: Book = None, *, as_json: AsJson = False) -> None:
    """Print a seal of all that is written: keep it elsewhere, and nobody changes it unseen."""
    from colony.acts.book.seal import seal_book

    with reading(book) as session:
        made = seal_book(session)
    if as_json:
        show_json({"seal": str(made), "acts": made.acts})
        return
    say(f"{made}")
    say(
        f"It seals acts 1 to {made.acts}. Give it away or write it down outside this machine; "
        "colony book check --seal holds the book against it. It proves that nothing was changed "
        "since, not that it was true when it was written."
    )


def _row_of(finding: "Finding") -> dict[str, object]:
    """A finding with the commands that put it right."""
    joint = ", then " if finding.in_turn else ", or "
    correction = joint.join(map(command_of, finding.remedies)) or finding.advice
    row: dict[str, object] = {name: getattr(finding, name) for name in FINDING_KEYS}
    return row | {"mend": correction}


@app.command("settings")
def settings(
    key: Annotated[str | None, typer.Argument(help="Which setting.")] = None,
    value: Annotated[str | None, typer.Argument(help="What it is to be.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show the settings of the book, or set one: KEY VALUE."""
    from colony.acts.book.settings import set_setting, show_settings

    if key is not None and value is not None:
        with acting(book, "book settings", begin=True) as session:
            set_setting(session, key=key, value=value)
    with reading(book) as session:
        known = show_settings(session, key=key)
    if as_json:
        show_json(known)
    else:
        show_table(("Setting", "Value"), list(known.items()))


@app.command("import")
def import_(
    path: Annotated[Path, typer.Argument(help="A CSV file of animals, or an exported folder.")],
    mappings: Annotated[
        list[str] | None,
        typer.Option("--map", help="What a column means: 'Ring no=tag'.", metavar="COLUMN=FIELD"),
    ] = None,
    date_order: Annotated[
        str | None,
        typer.Option(help="How dates such as 3/9/2026 are written: iso, dmy or mdy."),
    ] = None,
    length_unit: Annotated[
        str | None, typer.Option(help="Unit of widths without one: cm, in or mm.")
    ] = None,
    book: Book = None,
    *,
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Say what would be; write nothing.")
    ] = False,
    skip_bad: Annotated[
        bool, typer.Option("--skip-bad", help="Leave out rows with a fault.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Take in a spreadsheet of animals, or an exported colony: all of it or nothing."""
    from colony.acts.book.importing.imports import import_path
    from colony.commands.cli.progress import watched

    with (
        trying(book) if dry_run else acting(book, "book import", begin=True) as session,
        watched() as watch,
    ):
        done = import_path(
            session,
            path=path,
            mappings=mappings or (),
            date_order=date_order,
            length_unit=length_unit,
            skip_bad=skip_bad,
            dry_run=dry_run,
            today=today(),
            progress=watch,
        )
    # A fault says what to type, where that would put it right.
    errors = (replace(e, problem=in_ways(e.problem, ways_of(e.remedies))) for e in done.errors)
    done = replace(done, errors=tuple(errors))
    if as_json:
        show_json(done.as_document())
    else:
        _show_import(done, dry_run=dry_run, folder=path.is_dir())
    if done.refused:
        raise typer.Exit(1)


@app.command("export")
def export(
    path: Annotated[
        Path, typer.Argument(help="FILE.csv for one sheet of animals; else a folder of everything.")
    ],
    book: Book = None,
    *,
    yes: Yes = False,
    as_json: AsJson = False,
) -> None:
    """Write the whole book as plain files, or its animals as one sheet."""
    from colony.acts.book.export import export_book

    with reading(book) as session:
        done = export_book(session, path=path, overwrite=yes, today=today())
    if as_json:
        show_json(done)
    else:
        say(f"{done.rows} rows are in {done.path}.")


def _show_import(done: "Imported", *, dry_run: bool, folder: bool) -> None:
    """Faults by where they stand, then what was done."""
    if done.errors:
        show_table(
            ("File", ">Line", "Column", "Value", "Problem"),
            ((f.file_name, f.line, f.column, f.value_shown, f.problem) for f in done.errors),
        )
    warn(f"The column {heading} means nothing here and was left out." for heading in done.ignored)
    would = "would be " if dry_run else ""
    if done.refused:
        how = "" if folder else ", or leave out their rows with --skip-bad"
        warn([f"Faults: {len(done.errors)}; nothing was written: correct them{how}."])
    else:
        say(f"{done.added} {would}added, {done.updated} {would}updated, {done.skipped} skipped.")
        if done.ancestors:
            say(f"{done.ancestors} of those added are only named as parents.")
