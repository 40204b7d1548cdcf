"""`colony order`: what may be offered, for one order or for all, and what may be promised."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.opened import reading
from colony.commands.cli.options import Book
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day_or_none, today
from colony.commands.orders.orders import Number

if TYPE_CHECKING:
    from colony.acts.orders.offers import Offer

app = subject()


@app.command("offer")
def offer(
    number: Number,
    by: Annotated[str | None, typer.Option(help="Another last day.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Find the best sets for an order; nothing is written."""
    from colony.acts.orders.offers import offer as find_sets

    with reading(book) as session:
        found = find_sets(session, order=number, by=day_or_none(by), today=today())
    if as_json:
        show_json(found)
        return
    _show_sets([found], several=False)
    if not found.proven:
        say(f"Not proved in time: the mean kinship may be up to {found.gap or 0:.4f} lower.")


@app.command("fill")
def fill(book: Book = None, *, as_json: AsJson = False) -> None:
    """Find a set for as many open orders as possible, no animal twice; nothing is written."""
    from colony.acts.orders.offers import fill as fill_orders

    with reading(book) as session:
        found = fill_orders(session, today=today())
    if as_json:
        show_json(found)
        return
    if not found:
        say("No order waits for animals.")
        return
    _show_sets(found, several=True)
    if not found[0].proven:
        say(f"Not proved in time: the sum of mean kinships may be {found[0].gap or 0:.4f} lower.")


@app.command("promise")
def promise(
    weeks: Annotated[int, typer.Option(help="How many weeks.", min=1, max=104)] = 12,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show how many pups will be ready by each week, and how many are free to promise."""
    from colony.acts.orders.promises import promises
    from colony.store.lookup import find_species

    with reading(book) as session:
        name = find_species(session, species).name if species else None
        lines = promises(session, weeks=weeks, species=name, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Species", "Sex", ">Week", "Until", ">Likely", ">Sure", ">Asked for", ">Free"),
        ((p.species, p.sex, p.week, p.until, p.likely, p.sure, p.promised, p.free) for p in lines),
        none="No pup is here or expected.",
    )
    say("Sure is what will be ready with 90 %; what is kept or held back is left out.")


@app.command("message")
def message(number: Number, book: Book = None, *, as_json: AsJson = False) -> None:
    """Write what a buyer is told of an order, to copy; nothing is sent anywhere."""
    from colony.acts.orders.messages import order_message

    with reading(book) as session:
        text = order_message(session, order=number, today=today())
    if as_json:
        show_json({"order": int(number.lstrip("#")), "text": text})
    else:
        say(text)


@app.command("available")
def available(
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    sex: Annotated[str | None, typer.Option(help="Only F, M or U.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write the list of what is ready and free, to copy; nothing is sent anywhere."""
    from colony.acts.orders.messages import availability_message, available_pups
    from colony.notation.words import SEXES, parse_word
    from colony.store.lookup import find_species

    wanted = parse_word(sex, SEXES, "sex") if sex else None
    with reading(book) as session:
        name = find_species(session, species).name if species else None
        found = available_pups(session, species=name, sex=wanted, today=today())
    if as_json:
        show_json(found)
    else:
        say(availability_message(found))


def _show_sets(offers: "list[Offer]", *, several: bool) -> None:
    show_table(
        (">Order", "Set", ">Greatest kinship", ">Mean", ">Price", "Ready on"),
        (
            (
                each.order,
                " ".join(one.tags),
                f"{one.greatest_kinship:.4f}",
                f"{one.mean_kinship:.4f}",
                "-" if one.price is None else f"{one.price:,}",
                one.ready_on,
            )
            for each in offers
            for one in each.sets
        ),
    )
    for each in offers:
        if each.instead:
            say(f"{f'Order {each.order}: ' if several else ''}{each.instead}")
