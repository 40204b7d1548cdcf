"""`colony money`: prices, expenses, what came in and is owed, receipts."""

from pathlib import Path
from typing import Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import LARGEST, Book, On
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, day_or_none, today
from colony.commands.orders.orders import Number
from colony.notation.fields.orders import EXPENSE_FACTS, PRICE_FACTS, SPENT_ON_WHAT
from colony.notation.house import show_length

app = subject()

Amount = Annotated[str, typer.Argument(help="How much: 100, 99.50.")]
Output = Annotated[Path, typer.Option("-o", "--output", help="The file to write.")]
Force = Annotated[bool, typer.Option("--overwrite", help="Replace a file that is there.")]
Since = Annotated[str | None, typer.Option(help="From this day on.")]


@app.command("price")
@with_options(PRICE_FACTS, new=True)
def price(amount: Amount, typed: Typed, book: Book = None, *, as_json: AsJson = False) -> None:
    """Set a price of one animal, or of a species, line, sex and width."""
    from colony.acts.orders.prices import set_price
    from colony.store.settings import read_settings

    with acting(book, "money price") as session:
        facts = read_typed(PRICE_FACTS, typed, read_settings(session), new=True)
        on = facts.pop("on")
        page = set_price(session, amount=amount, facts=facts, on=on, today=today())
    if as_json:
        show_json(page)
    else:
        say(f"Price {page.price}: {page.of}, {page.amount:,} {page.currency}.")


@app.command("prices")
def prices(
    book: Book = None,
    *,
    all_: Annotated[bool, typer.Option("--all", help="Also those that are over.")] = False,
    as_json: AsJson = False,
) -> None:
    """List the prices."""
    from colony.acts.orders.prices import list_prices

    with reading(book) as session:
        pages = list_prices(session, ended_too=all_, today=today())
    if as_json:
        show_json(pages)
        return
    show_table(
        (">Price", "Of", "From width", ">Amount", "From", "Until"),
        (
            (
                p.price,
                p.of,
                show_length(p.from_width_mm),
                f"{p.amount:,} {p.currency}",
                p.valid_from,
                p.valid_until,
            )
            for p in pages
        ),
        none="No price is in the book.",
    )


@app.command("end")
def end(
    number: Annotated[int, typer.Argument(help="The number of the price.", min=1, max=LARGEST)],
    on: On = "today",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Let a price hold no longer than a day."""
    from colony.acts.orders.prices import end_price

    with acting(book, "money end") as session:
        page = end_price(session, price=number, on=day(on), today=today())
    if as_json:
        show_json(page)
    else:
        say(f"Price {page.price} of {page.of} ends on {page.valid_until}.")


@app.command("spend")
@with_options(EXPENSE_FACTS, new=True)
def spend(
    kind: Annotated[str, argument(SPENT_ON_WHAT)],
    amount: Amount,
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down what the house spent."""
    from colony.acts.orders.prices import spend as write_expense

    facts = read_typed(
        (SPENT_ON_WHAT, *EXPENSE_FACTS), {SPENT_ON_WHAT.name: kind, **typed}, new=True
    )
    with acting(book, "money spend") as session:
        page = write_expense(session, amount=amount, **facts, today=today())
    if as_json:
        show_json(page)
    else:
        say(f"{page.kind}: {page.amount:,} {page.currency} on {page.on}.")


@app.command("expenses")
def expenses(since: Since = None, book: Book = None, *, as_json: AsJson = False) -> None:
    """List what was spent."""
    from colony.acts.orders.prices import list_expenses

    with reading(book) as session:
        pages = list_expenses(session, since=day_or_none(since))
    if as_json:
        show_json(pages)
        return
    show_table(
        ("Day", "For", ">Amount", "Species", "Note"),
        ((p.on, p.kind, f"{p.amount:,} {p.currency}", p.species, p.note) for p in pages),
        none="No expense is in the book.",
    )


@app.command("months")
def months(
    since: Since = None,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="A .csv table, or an .svg picture.")
    ] = None,
    book: Book = None,
    *,
    overwrite: Force = False,
    as_json: AsJson = False,
) -> None:
    """Show income and expenses by month and species; no advice on taxes."""
    from colony.acts.orders.money import money_by_month, write_months

    with reading(book) as session:
        first = day_or_none(since)
        pages = money_by_month(session, since=first, today=today())
        if output is not None:
            write_months(session, path=output, since=first, overwrite=overwrite, today=today())
    if as_json:
        show_json(pages)
        return
    if output is not None:
        say(f"Wrote {output}.")
        return
    show_table(
        ("Month", ">Came in", ">Went out", ">Left", "Currency", "By species"),
        (
            (
                p.month,
                f"{p.income:,}",
                f"{p.expenses:,}",
                f"{p.left:,}",
                p.currency,
                ", ".join(f"{name} {amount:,}" for name, amount in p.by_species.items()),
            )
            for p in pages
        ),
        none="No money is in the book.",
    )


@app.command("owed")
def owed(book: Book = None, *, as_json: AsJson = False) -> None:
    """List what buyers owe."""
    from colony.acts.orders.money import owed_to_the_house

    with reading(book) as session:
        lines = owed_to_the_house(session, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        (">Order", "Buyer", "State", ">Owed"),
        ((o.order, o.buyer, o.state, f"{o.owed:,} {o.currency}") for o in lines),
        none="Nobody owes anything.",
    )


@app.command("receipt")
def receipt(
    number: Number,
    output: Output,
    book: Book = None,
    *,
    overwrite: Force = False,
    as_json: AsJson = False,
) -> None:
    """Write the receipt of an order as a PDF, with your own details from the settings."""
    from colony.acts.orders.money import write_receipt

    with reading(book) as session:
        path = write_receipt(session, order=number, path=output, overwrite=overwrite, today=today())
    if as_json:
        show_json({"path": str(path)})
    else:
        say(f"Wrote {path}.")
