"""`colony food`: foods of the house, their batches, and the feeding of tanks."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, insisting, reading
from colony.commands.cli.options import Anyway, Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.notation.days import show_span
from colony.notation.fields.foods import (
    BATCH_FACTS,
    FOOD_FACTS,
    MEAL_FACTS,
    OFFERED,
    SEEN_FACTS,
)
from colony.notation.house import show_mass
from colony.notation.tags import parse_tag

if TYPE_CHECKING:
    from colony.acts.care.feeding import Fed

app = subject()

Food = Annotated[str, typer.Argument(help="The food's name on your list.")]
Code = Annotated[str, typer.Argument(help="The batch code on the package.")]


@app.command("add")
@with_options(FOOD_FACTS)
def add(
    name: Annotated[str, typer.Argument(help="A food: earthworms, prawn, pellets, ...")],
    typed: Typed,
    book: Book = None,
) -> None:
    """Add a food to the house's list, or correct what is known of it."""
    from colony.acts.care.foods import set_food

    with acting(book, "food add", begin=True) as session:
        set_food(session, name=parse_tag(name), **read_typed(FOOD_FACTS, typed))
    say(f"{name} is on the list.")


@app.command("batch")
@with_options(BATCH_FACTS, new=True)
def batch(
    food: Food,
    code: Code,
    typed: Typed,
    book: Book = None,
    *,
    finished: Annotated[
        bool, typer.Option("--finished", help="It is used up or thrown away.")
    ] = False,
) -> None:
    """Write down a delivery of a food, or that a batch is finished."""
    from colony.acts.care.foods import add_batch, finish_batch

    label = parse_tag(code)
    facts = read_typed(BATCH_FACTS, typed, new=True)
    with acting(book, "food batch") as session:
        if finished:
            finish_batch(session, food=food, code=label, on=facts["on"], today=today())
        else:
            add_batch(
                session,
                food=food,
                code=label,
                received=facts["on"],
                expires=facts["expires"],
                today=today(),
            )
    say(f"Batch {label} of {food} is {'finished' if finished else 'in the book'}.")


@app.command("list")
def list_(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the foods of the house with their open batches."""
    from colony.acts.care.foods import list_foods

    with reading(book) as session:
        foods = list_foods(session, today=today())
    if as_json:
        show_json(foods)
        return
    show_table(
        ("Food", ">Protein", "Batch", "Received", "Expires", ""),
        (
            (
                food.food,
                None if food.protein_percent is None else f"{food.protein_percent:g} %",
                batch.batch if batch else None,
                batch.received if batch else None,
                batch.expires if batch else None,
                "EXPIRED" if batch and batch.expired else "",
            )
            for food in foods
            for batch in (food.batches or (None,))
        ),
        none="No food is on the list: colony food add NAME.",
    )


@app.command("give")
@with_options((*MEAL_FACTS, *SEEN_FACTS), new=True)
def give(
    tank: Annotated[str, typer.Argument(help="The tank that is fed.")],
    food: Food,
    typed: Typed,
    amount: Annotated[str | None, argument(OFFERED)] = None,
    book: Book = None,
    *,
    everyone: Annotated[
        bool, typer.Option("--everyone", help="Each one was seen to take it.")
    ] = False,
    also: Annotated[
        bool, typer.Option("--also", help="A second food of the same meal: no second tick.")
    ] = False,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Write down what a tank was offered and took; it ticks the feeding off."""
    from colony.acts.care.feeding import Seen, feed_tank
    from colony.store.settings import read_settings

    seen = {name: tags or () for name, tags in read_typed(SEEN_FACTS, typed, new=True).items()}
    facts = read_typed(MEAL_FACTS, typed, new=True)

    def write(sure: bool) -> "Fed":
        with acting(book, "food give") as session:
            offered = {OFFERED.name: amount}
            return feed_tank(
                session,
                tank=tank,
                food=food,
                **facts,
                **read_typed((OFFERED,), offered, read_settings(session), new=True),
                seen=Seen(**seen, everyone_took=everyone),
                same_meal=also,
                anyway=sure,
                today=today(),
            )

    fed = insisting(write, anyway=anyway)
    if as_json:
        show_json(fed)
        return
    say(f"{fed.tank}: {fed.food}, took {fed.taken}.")
    if fed.took or fed.refused:
        say(f"Took it: {', '.join(fed.took) or '-'}; refused: {', '.join(fed.refused) or '-'}.")
    warn(fed.warnings)


@app.command("log")
def log(
    tank: Annotated[str | None, typer.Argument(help="Only this tank.")] = None,
    since: Annotated[str, typer.Option(help="From this day on.")] = "7d ago",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List what the tanks were offered and took."""
    from colony.acts.care.feeding import list_feedings

    with reading(book) as session:
        lines = list_feedings(session, tank=tank, since=day(since))
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Day", "Tank", "Food", "Batch", ">Offered", "Taken", "Note"),
        ((f.on, f.tank, f.food, f.batch, show_mass(f.offered_g), f.taken, f.note) for f in lines),
        none="No feeding is in the book since then.",
    )


@app.command("pups")
def pups(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the growing pups with their first feed and the foods that each takes."""
    from colony.acts.pups.foods_taken import list_acceptance

    with reading(book) as session:
        lines = list_acceptance(session, today=today())
    if as_json:
        show_json(lines)
        return
    on = today()
    show_table(
        ("Pup", "Tank", ">Age", "First feed", "Takes", "Needs"),
        (
            (
                line.tag,
                line.tank,
                None if line.age_days is None else show_span(line.age_days),
                line.first_feed,
                ", ".join(f"{food} {(on - since).days}d" for food, since in line.takes.items())
                or None,
                f"{line.foods_needed} for {line.days_needed}d",
            )
            for line in lines
        ),
        none="No pup is growing.",
    )
