"""`colony buyer`: who buys, how to reach them, and how they are taken out again."""

import sys
from typing import TYPE_CHECKING, Annotated, Any

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book, On, Yes
from colony.commands.cli.output import say, show_facts, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.notation.cautions import CAUTIONS
from colony.notation.fields.orders import BUYER_FACTS, NAME

if TYPE_CHECKING:
    from colony.store.readers.orders.buyers import BuyerRow

app = subject()

Who = Annotated[str, typer.Argument(help="The buyer's name, its beginning, or their code.")]


@app.command("add")
@with_options(BUYER_FACTS, new=True)
def add(
    name: Annotated[str, argument(NAME)],
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a buyer."""
    from colony.acts.orders.buyers import add_buyer
    from colony.notation.tags import parse_text

    facts = read_typed(BUYER_FACTS, typed, new=True)
    with acting(book, "buyer add") as session:
        row = add_buyer(session, name=parse_text(name, "buyer's name"), facts=facts)
    _answer(row, "was added", as_json=as_json)


@app.command("edit")
@with_options((NAME.called("name", needed=False), *BUYER_FACTS))
def edit(
    buyer: Who,
    typed: Typed,
    book: Book = None,
    *,
    back: Annotated[bool, typer.Option("--back", help="Sell to them again.")] = False,
    as_json: AsJson = False,
) -> None:
    """Correct facts of a buyer; '' clears one."""
    from colony.acts.orders.buyers import edit_buyer

    facts = read_typed((NAME, *BUYER_FACTS), typed)
    name = facts.pop("name")
    with acting(book, "buyer edit") as session:
        row = edit_buyer(session, buyer=buyer, name=name, facts=facts, back=back)
    _answer(row, "was corrected", as_json=as_json)


@app.command("list")
def list_(
    book: Book = None,
    *,
    all_: Annotated[bool, typer.Option("--all", help="Also those who are ended.")] = False,
    as_json: AsJson = False,
) -> None:
    """List the buyers."""
    from colony.acts.orders.buyers import list_buyers

    with reading(book) as session:
        rows = list_buyers(session, ended_too=all_)
    if as_json:
        show_json([_document(row) for row in rows])
        return
    show_table(
        ("Buyer", "Code", "Kind", "Country", "Contact", "Papers until"),
        ((r.called, r.buyer, r.kind, r.country, r.contact, r.papers_until) for r in rows),
        none="No buyer is in the book.",
    )


@app.command("show")
def show(buyer: Who, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show a buyer with all their orders."""
    from colony.acts.orders.buyers import find_buyer
    from colony.acts.orders.orders import list_orders

    with reading(book) as session:
        row = find_buyer(session, buyer)
        orders = list_orders(session, buyer=row.buyer, today=today())
    if as_json:
        show_json({**_document(row), "orders": orders})
        return
    show_facts(row, leave=("id",))
    show_table(
        (">Order", "State", "Wants", "Animals"),
        ((o.order, o.state, o.want or None, " ".join(o.tags) or None) for o in orders),
        none="No order of theirs is in the book.",
    )


@app.command("end")
def end(buyer: Who, on: On = "today", book: Book = None, *, as_json: AsJson = False) -> None:
    """Sell nothing more to a buyer; their orders stay in the book."""
    from colony.acts.orders.buyers import end_buyer

    with acting(book, "buyer end") as session:
        row = end_buyer(session, buyer=buyer, on=day(on), today=today())
    _answer(row, "is ended", as_json=as_json)


@app.command("forget")
def forget(buyer: Who, book: Book = None, *, yes: Yes = False, as_json: AsJson = False) -> None:
    """Take out all that is personal of a buyer, for good; the sales stay."""
    from colony.acts.orders.buyers import find_buyer, forget_buyer

    if not yes and sys.stdin.isatty():
        with reading(book) as session:
            who = find_buyer(session, buyer).called
        typer.confirm(f"Forget {who} for good? It cannot be undone.", abort=True, err=True)
    with acting(book, "buyer forget") as session:
        row = forget_buyer(session, buyer=buyer, today=today())
    _answer(row, "is forgotten", as_json=as_json)
    warn([CAUTIONS["buyer forget"]])


def _answer(row: "BuyerRow", done: str, *, as_json: bool) -> None:
    if as_json:
        show_json(_document(row))
    else:
        say(f"{row.called} ({row.buyer}) {done}.")


def _document(row: "BuyerRow") -> dict[str, Any]:
    return {name: value for name, value in vars(row).items() if name != "id"}
