"""`colony order`: what is kept for whom, money, and how an order ends."""

from typing import Annotated

import typer

from colony.commands.cli.fields import Typed, read_typed, with_options
from colony.commands.cli.opened import acting
from colony.commands.cli.options import Anyway, Book, On, Tags
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.commands.orders.orders import Number, answer
from colony.notation.cautions import CAUTIONS
from colony.notation.fields.field import NOTE
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.orders import PAY_FACTS, RESERVE_FACTS, WEATHER

app = subject()

Why = Annotated[str | None, typer.Option(help=ANYWAY_WHY.help)]


@app.command("reserve")
@with_options(RESERVE_FACTS, new=True)
def reserve(
    number: Number,
    tags: Tags,
    typed: Typed,
    why: Why = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Keep animals for an order; of those that are kept already, prolong it."""
    from colony.acts.orders.reserving import reserve as reserve_animals

    facts = read_typed(RESERVE_FACTS, typed, new=True)
    with acting(book, "order reserve") as session:
        page = reserve_animals(
            session, order=number, tags=tags, **facts, anyway=anyway, why=why, today=today()
        )
    answer(page, "has its animals", as_json=as_json)


@app.command("release")
def release(
    number: Number,
    tags: Annotated[list[str] | None, typer.Argument(help="Tags; none for all.")] = None,
    on: On = "today",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Let animals of an order go, or all of them."""
    from colony.acts.orders.reserving import release as release_animals

    with acting(book, "order release") as session:
        page = release_animals(session, order=number, tags=tags or (), on=day(on), today=today())
    answer(page, "let go", as_json=as_json)


@app.command("adopt")
def adopt(book: Book = None, *, as_json: AsJson = False) -> None:
    """Make an order of each name that an older book wrote at a reserved animal."""
    from colony.acts.orders.reserving import adopt_names

    with acting(book, "order adopt") as session:
        count = adopt_names(session, today=today())
    if as_json:
        show_json({"adopted": count})
    else:
        say(f"{count} names became orders.")


@app.command("pay")
@with_options(PAY_FACTS, new=True)
def pay(
    number: Number,
    amount: Annotated[str, typer.Argument(help="How much: 100, 99.50.")],
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down money for an order; a refund or a discount by --kind."""
    from colony.acts.orders.payments import pay as write_payment

    facts = read_typed(PAY_FACTS, typed, new=True)
    with acting(book, "order pay") as session:
        page = write_payment(session, order=number, amount=amount, **facts, today=today())
    answer(page, "has a payment", as_json=as_json)


@app.command("ship")
def ship(
    number: Number,
    on: On = "today",
    hours: Annotated[int, typer.Option(help="Hours of the journey.", min=1, max=240)] = 24,
    weather: Annotated[str | None, typer.Option(help=WEATHER.help)] = None,
    why: Why = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Ship the animals of an order; of a day to come, plan it back from that day."""
    from colony.acts.orders.handing import ship as ship_order

    with acting(book, "order ship") as session:
        done = ship_order(
            session,
            order=number,
            on=day(on),
            hours=hours,
            weather=weather,
            anyway=anyway,
            why=why,
            today=today(),
        )
    if as_json:
        show_json({**vars(done.order), **{k: v for k, v in vars(done).items() if k != "order"}})
        return
    tags = ", ".join(done.order.tags)
    say(
        f"Order {done.order.order} {'left' if done.gone else 'is to leave'} on {done.leaves_on}: {tags}."
    )
    show_table(("Day", "Work before"), ((step.on, step.what) for step in done.work))
    warn([*(() if done.gone else done.against), *done.order.warnings])
    say(CAUTIONS["order ship"])


@app.command("arrived")
def arrived(
    number: Number,
    on: On = "today",
    lost: Annotated[int, typer.Option(help="How many did not live.", min=0, max=1000)] = 0,
    claim: Annotated[str | None, typer.Option(help="What is claimed, and of whom.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down how the animals of an order came."""
    from colony.acts.orders.handing import arrived as write_arrival

    with acting(book, "order arrived") as session:
        page = write_arrival(
            session, order=number, on=day(on), lost=lost, claim=claim, today=today()
        )
    answer(page, "arrived", as_json=as_json)


@app.command("collect")
def collect(
    number: Number,
    on: On = "today",
    why: Why = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """The buyer came for the animals of an order."""
    from colony.acts.orders.handing import collect as collect_order

    with acting(book, "order collect") as session:
        page = collect_order(
            session, order=number, on=day(on), anyway=anyway, why=why, today=today()
        )
    answer(page, "was collected", as_json=as_json)
    if not as_json:
        say(CAUTIONS["order collect"])


@app.command("close")
def close(
    number: Number,
    on: On = "today",
    why: Why = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Close an order; what is kept for it still was collected on that day."""
    from colony.acts.orders.handing import close_order

    with acting(book, "order close") as session:
        page = close_order(session, order=number, on=day(on), anyway=anyway, why=why, today=today())
    answer(page, "is closed", as_json=as_json)
    if not as_json:
        say(CAUTIONS["order close"])


@app.command("cancel")
@with_options((NOTE,), new=True)
def cancel(
    number: Number,
    typed: Typed,
    on: On = "today",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Nothing comes of an order; what was kept for it is free."""
    from colony.acts.orders.handing import cancel_order

    with acting(book, "order cancel") as session:
        page = cancel_order(session, order=number, on=day(on), note=typed["note"], today=today())
    answer(page, "is cancelled", as_json=as_json)
