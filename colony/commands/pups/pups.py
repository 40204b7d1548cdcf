"""`colony pup measure` and `feed`; what grows out of it is in `growing`."""

from typing import Annotated

import typer

from colony.commands.cli.opened import acting, length_unit
from colony.commands.cli.options import AsJson, Book, On, Tag, subject
from colony.commands.cli.output import say, show_json, warn
from colony.commands.cli.read import day, today
from colony.notation.measures import parse_length_mm, parse_mass_g, show_length
from colony.notation.tags import parse_text

app = subject()


@app.command("measure")
def measure(
    tag: Tag,
    width: Annotated[str, typer.Argument(help="Disc width, tail excluded: 12.5cm, 5in.")],
    mass: Annotated[str | None, typer.Argument(help="Mass: 450g, 1.2kg.")] = None,
    on: On = "today",
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down disc width and mass; a second time on one day corrects the first."""
    from colony.acts.pups.measure import measure as measure_pup

    mass_g = parse_mass_g(mass) if mass else None
    with acting(book, "pup measure") as session:
        unit = length_unit(session)
        measured = measure_pup(
            session,
            tag=tag,
            width_mm=parse_length_mm(width, unit),
            mass_g=mass_g,
            on=day(on),
            note=parse_text(note, "note") if note else None,
            today=today(),
        )
    if as_json:
        show_json(measured)
        return
    grown = f", {measured.growth_mm:+} mm since {measured.since}" if measured.since else ""
    say(
        f"{measured.tag}: {show_length(measured.disc_width_mm, unit)} on {measured.measured_on}{grown}."
    )
    warn(measured.warnings)


@app.command("feed")
def feed(
    tag: Tag,
    food: Annotated[str, typer.Argument(help="What it was offered: worms, prawn, ...")],
    on: On = "today",
    book: Book = None,
    *,
    refused: Annotated[bool, typer.Option("--refused", help="It did not take it.")] = False,
) -> None:
    """Write down that an animal took a food, or refused it."""
    from colony.acts.pups.measure import feed as feed_pup

    with acting(book, "pup feed") as session:
        feed_pup(
            session,
            tag=tag,
            food=parse_text(food, "food", 40),
            took=not refused,
            on=day(on),
            today=today(),
        )
    say(f"{tag} {'refused' if refused else 'took'} {food}.")
