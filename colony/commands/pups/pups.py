"""`colony pup measure` and `feed`; what grows out of it is in `growing`."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, insisting
from colony.commands.cli.options import Anyway, Book, Tag
from colony.commands.cli.output import say, show_json, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.notation.cautions import CAUTIONS
from colony.notation.fields.field import NOTE, ON
from colony.notation.fields.pups import FOOD, MASS, TOOK, WIDTH
from colony.notation.house import say_growth, show_length

if TYPE_CHECKING:
    from colony.acts.pups.measure import Measured

app = subject()

LARGE_MM = 250
"""From this disc width on a ray is handled as an adult; common practice, no source."""

MEASURED = (WIDTH.called(WIDTH.name, needed=True), MASS, ON, NOTE)
FED = (FOOD, ON)


@app.command("measure")
@with_options((ON, NOTE), new=True)
def measure(
    tag: Tag,
    width: Annotated[str, argument(WIDTH)],
    typed: Typed,
    mass: Annotated[str | None, argument(MASS)] = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Write down disc width and mass; a second time on one day corrects the first."""
    from colony.acts.pups.measure import measure as measure_pup
    from colony.store.settings import read_settings

    line = {WIDTH.name: width, MASS.name: mass, **typed}

    def write(sure: bool) -> "Measured":
        with acting(book, "pup measure") as session:
            facts = read_typed(MEASURED, line, read_settings(session), new=True)
            return measure_pup(session, tag=tag, **facts, anyway=sure, today=today())

    measured = insisting(write, anyway=anyway)
    if as_json:
        show_json(measured)
        return
    width = show_length(measured.disc_width_mm)
    gain = "" if measured.growth_mm is None else say_growth(measured.growth_mm, signed=True)
    grown = f", {gain} since {measured.since}" if measured.since else ""
    say(f"{measured.tag}: {width} on {measured.measured_on}{grown}.")
    if (measured.disc_width_mm or 0) >= LARGE_MM:
        say(CAUTIONS["pup measure"])
    warn(measured.warnings)


@app.command("feed")
@with_options((ON,), new=True)
def feed(
    tag: Tag,
    food: Annotated[str, argument(FOOD)],
    typed: Typed,
    book: Book = None,
    *,
    refused: Annotated[bool, typer.Option(TOOK.switch, help=TOOK.help)] = False,
) -> None:
    """Write down that an animal took a food, or refused it."""
    from colony.acts.pups.measure import feed as feed_pup

    facts = read_typed(FED, {FOOD.name: food, **typed}, new=True)
    with acting(book, "pup feed") as session:
        feed_pup(session, tag=tag, took=not refused, **facts, today=today())
    say(f"{tag} {'refused' if refused else 'took'} {food}.")
