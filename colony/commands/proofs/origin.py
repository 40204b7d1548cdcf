"""`colony proof`: where an animal is from, and which papers are missing."""

from typing import Annotated

import typer

from colony.commands.cli.opened import reading
from colony.commands.cli.options import Book, Tag
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.notation.cautions import LOCAL_CODES

app = subject()


@app.command("show")
def show(tag: Tag, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show the chain of origin of an animal, what is missing in it, and what codes it supports."""
    from colony.acts.proofs.origin import show_origin

    with reading(book) as session:
        found = show_origin(session, tag=tag)
    if as_json:
        show_json(found)
        return
    show_table(
        (">Step", "Animal", "Is", "On record"),
        (
            (link.step, link.tag, link.role, "; ".join(link.recorded) or None)
            for link in found.chain
        ),
    )
    show_table(
        (">Step", "Missing of", "What"),
        ((each.step, each.tag, each.what) for each in found.missing),
        none="Nothing is missing in the chain.",
    )
    show_table(
        ("Code", "The record", "Because"),
        (
            (code.code, "would support it" if code.supported else "does not", code.why)
            for code in found.codes
        ),
    )
    say(f"The permit office decides which code applies, and what else it asks for. {LOCAL_CODES}")


@app.command("missing")
def missing(
    limit: Annotated[int, typer.Option(help="How many lines; 0 for all.", min=0, max=10_000)] = 20,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List what is missing in the chains of all that are here, what completes the most first."""
    from colony.acts.proofs.origin import missing_of_herd

    with reading(book) as session:
        papers = missing_of_herd(session)
    if as_json:
        show_json(papers)
        return
    show_table(
        ("Of", "What", ">In chains", ">Alone completes"),
        ((p.tag, p.what, p.chains, p.completes) for p in papers[: limit or None]),
        none="Nothing is missing in any chain.",
    )
    if limit and len(papers) > limit:
        say(f"and {len(papers) - limit} more: --limit 0 shows all.")
