"""`colony order`: what is asked for, and how each order stands."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.fields import Typed, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book, On
from colony.commands.cli.output import say, show_facts, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.commands.orders.buyers import Who
from colony.notation.fields.field import NOTE
from colony.notation.fields.orders import NEEDED_BY, ORDER_FACTS, WANTS

if TYPE_CHECKING:
    from colony.acts.orders.orders import OrderPage

app = subject()

Number = Annotated[str, typer.Argument(help="The number of the order.", metavar="ORDER")]
EDITED = (WANTS.called(WANTS.name, needed=False), NEEDED_BY, NOTE)


@app.command("add")
@with_options(ORDER_FACTS, new=True)
def add(buyer: Who, typed: Typed, book: Book = None, *, as_json: AsJson = False) -> None:
    """Write down what a buyer asks for."""
    from colony.acts.orders.orders import add_order

    facts = read_typed(ORDER_FACTS, typed, new=True)
    with acting(book, "order add") as session:
        page = add_order(session, buyer=buyer, **facts, today=today())
    answer(page, "was added", as_json=as_json)


@app.command("edit")
@with_options(EDITED)
def edit(number: Number, typed: Typed, book: Book = None, *, as_json: AsJson = False) -> None:
    """Correct what an order asks for, by when, or its note."""
    from colony.acts.orders.orders import edit_order

    facts = read_typed(EDITED, typed)
    with acting(book, "order edit") as session:
        page = edit_order(session, order=number, **facts, today=today())
    answer(page, "was corrected", as_json=as_json)


@app.command("list")
def list_(
    state: Annotated[str | None, typer.Option(help="Only in this state.")] = None,
    buyer: Annotated[str | None, typer.Option(help="Only of this buyer.")] = None,
    book: Book = None,
    *,
    only_open: Annotated[
        bool, typer.Option("--open", help="Only those in which the buyer still waits.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List the orders as they are served: deposits first, then by the day they were asked for."""
    from colony.acts.orders.orders import list_orders
    from colony.notation.words import parse_word
    from colony.planning.orders.states import STATES

    wanted = parse_word(state, STATES, "state") if state else None
    with reading(book) as session:
        pages = list_orders(session, state=wanted, buyer=buyer, only_open=only_open, today=today())
    if as_json:
        show_json(pages)
        return
    show_table(
        (">Order", "Buyer", "State", "Wants", "By", "Animals", ">Owed"),
        (
            (p.order, p.buyer, p.state, p.want or None, p.by, " ".join(p.tags) or None, owed(p))
            for p in pages
        ),
        none="No order is in the book.",
    )


@app.command("show")
def show(number: Number, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show an order with all that happened to it."""
    from colony.acts.orders.orders import show_order
    from colony.notation.money import say_money

    with reading(book) as session:
        found = show_order(session, order=number, today=today())
    page = found.page
    if as_json:
        show_json(
            {
                **vars(page),
                "events": [event._asdict() for event in found.events],
                "payments": [payment._asdict() for payment in found.payments],
                "shipment": found.shipment and found.shipment._asdict(),
            }
        )
        return
    show_facts(page, leave=("warnings", "deposit"))
    show_table(("Day", "Event", "Note"), ((e.on, e.event, e.note) for e in found.events))
    show_table(
        ("Day", "Money", ">Amount", "Note"),
        ((p.on, p.kind, say_money(p.amount_minor, page.currency), p.note) for p in found.payments),
    )
    if found.shipment is not None:
        show_facts(found.shipment._asdict())


@app.command("offered")
def offered(
    number: Number,
    on: On = "today",
    note: Annotated[str | None, typer.Option(help="What was offered.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Note that an offer went to the buyer."""
    from colony.acts.orders.orders import note_offer

    with acting(book, "order offered") as session:
        page = note_offer(session, order=number, on=day(on), note=note, today=today())
    answer(page, "is offered", as_json=as_json)


def answer(page: "OrderPage", done: str, *, as_json: bool) -> None:
    """Say how an order stands after an act."""
    if as_json:
        show_json(page)
        return
    what = "Kept" if page.state in {"reserved", "paid"} else "Animals"
    tags = f" {what}: {', '.join(page.tags)}." if page.tags else ""
    due = owed(page)
    owing = f" Owed: {due}." if due else ""
    want = f" ({page.want})" if page.want else ""
    say(f"Order {page.order} of {page.buyer}{want} {done}: {page.state}.{tags}{owing}")
    warn(page.warnings)


def owed(page: "OrderPage") -> str | None:
    """What is owed, as it is said."""
    return f"{page.owed:,} {page.currency}" if page.owed else None
