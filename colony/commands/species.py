"""`colony species`: life-history numbers and their sources."""

from typing import Annotated

import typer

from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.notation.tags import parse_tag, parse_text

app = subject()

Name = Annotated[
    str, typer.Argument(help="A short or scientific name; 'family' stands in for all.")
]


@app.command("list")
def list_(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the species of the book."""
    from colony.acts.animals.species import list_species

    with reading(book) as session:
        pages = list_species(session)
    if as_json:
        show_json(pages)
        return
    show_table(
        ("Species", "Scientific name", "English name", ">Numbers of its own"),
        (
            (page.species, page.scientific_name, page.english_name, len(page.traits))
            for page in pages
        ),
    )


@app.command("show")
def show(name: Name, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show the numbers of one species, each with its source."""
    from colony.acts.animals.species import show_species

    with reading(book) as session:
        page = show_species(session, name=name)
    if as_json:
        show_json(page)
        return
    say(f"{page.species}: {page.scientific_name}, {page.english_name or 'no English name'}.")
    show_table(
        ("Number", ">", "Source"),
        ((trait.trait, f"{trait.number:g}", trait.source) for trait in page.traits),
        none="It has no numbers of its own; the family's stand in.",
    )


@app.command("add")
def add(
    name: Annotated[str, typer.Argument(help="A short name of your own.")],
    scientific: Annotated[str, typer.Option(help="Scientific name.")],
    english: Annotated[str | None, typer.Option(help="English name.")] = None,
    book: Book = None,
) -> None:
    """Add a species; its numbers are the family's until you set them."""
    from colony.acts.animals.species import add_species

    with acting(book, "species add", begin=True) as session:
        add_species(
            session,
            name=parse_tag(name),
            scientific_name=parse_text(scientific, "scientific name", 80),
            english_name=parse_text(english, "English name", 80) if english else None,
        )
    say(f"Species {name} is in the book.")


@app.command("set")
def set_(
    name: Name,
    trait: Annotated[str, typer.Argument(help="Which number, such as gestation_likely_days.")],
    number: Annotated[
        float, typer.Argument(help="The number: days, mm, or per year.", min=0.001, max=10_000)
    ],
    source: Annotated[str, typer.Option(help="Where it comes from.")] = "own records",
    book: Book = None,
) -> None:
    """Set a number of a species, and say where it comes from."""
    from colony.acts.animals.species import set_trait

    with acting(book, "species set", begin=True) as session:
        set_trait(
            session, name=name, trait=trait, number=number, source=parse_text(source, "source", 200)
        )
    say(f"{name}: {trait} is {number:g} ({source}).")
