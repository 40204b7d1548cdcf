"""`colony pedigree`: inbreeding and kinship."""

from typing import Annotated

import typer

from colony.commands.completion import complete_tag
from colony.commands.opened import reading
from colony.commands.options import AsJson, Book, Tag, subject
from colony.commands.output import say, show_json, show_table

app = subject("Inbreeding and kinship, and where they come from.")


@app.command("inbreeding")
def inbreeding(
    tags: Annotated[
        list[str] | None,
        typer.Argument(help="Tags; without: everybody present.", autocompletion=complete_tag),
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show F with its range where sires are in doubt, and how complete the pedigree is."""
    from colony.acts.pedigree import inbreeding_of

    with reading(book) as session:
        found = inbreeding_of(session, tags=tags or ())
    if as_json:
        show_json(found)
        return
    show_table(
        ("Animal", ">F", ">Least", ">Greatest", ">Known generations"),
        ((one.tag, one.inbreeding, one.low, one.high, f"{one.completeness:.2f}") for one in found),
        none="Nobody is in the book.",
    )


@app.command("kinship")
def kinship(tag: Tag, other: Tag, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show the kinship of two animals: F of the pups the two would have."""
    from colony.acts.pedigree import kinship_of

    with reading(book) as session:
        found = kinship_of(session, one=tag, other=other)
    if as_json:
        show_json(found)
    else:
        say(f"Kinship of {found.tags[0]} and {found.tags[1]}: {found.kinship:.4f}.")
