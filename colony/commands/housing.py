"""`colony tank outlook`, `plan` and `work`: the tanks in the weeks to come."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.completion import complete_tag
from colony.commands.opened import acting, reading
from colony.commands.options import AsJson, Book
from colony.commands.output import say, show_json, show_table, warn
from colony.commands.read import today
from colony.commands.tanks import app

if TYPE_CHECKING:
    from colony.acts.work import MoveLine
    from colony.planning.housing_plan import HousingPlan

BLOCKS = "▁▂▃▄▅▆▇"
"""Load from nothing to the limit; a week over the limit shows as OVER."""
OVER = "!"

Weeks = Annotated[int, typer.Option(help="How far to look.", min=1, max=104)]
Sales = Annotated[
    float | None,
    typer.Option(
        "--sales", help="Pups sold a week; without: as in the last weeks.", min=0, max=1000
    ),
]

CAUTION = "Stings happen at moves: a rigid container, not a net; two people for adults."


@app.command("outlook")
def outlook(
    weeks: Weeks = 26, sales: Sales = None, book: Book = None, *, as_json: AsJson = False
) -> None:
    """Show the load of every tank week by week, and the first day each breaks a limit."""
    from colony.acts.housing import tank_outlook

    with reading(book) as session:
        tanks = tank_outlook(session, weeks=weeks, sales_per_week=sales, today=today())
    if as_json:
        show_json(tanks)
        return
    show_table(
        ("Tank", ">Now", f"Week by week ({OVER} over the limit)", ">Then", "Breaks a limit"),
        (
            (
                t.tank,
                _percent(t.loads[0]),
                _bars(t.loads, t.load_limit),
                _percent(t.loads[-1]),
                t.breaks[0]["day"] if t.breaks else None,
            )
            for t in tanks
        ),
        none="No tank is in the book.",
    )
    for tank in tanks:
        if tank.breaks:
            say(f"{tank.tank}, {tank.breaks[0]['day']}: {tank.breaks[0]['why']}.")


@app.command("plan")
def plan(
    weeks: Weeks = 4,
    sales: Sales = None,
    book: Book = None,
    *,
    accept: Annotated[
        bool, typer.Option("--accept", help="Put the first week's moves on the work list.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Propose the fewest moves that keep every limit; nothing moves by itself."""
    from colony.acts.housing import accept_plan, plan_tanks

    with reading(book) as session:
        proposed = plan_tanks(session, weeks=weeks, sales_per_week=sales, today=today())
    if accept:
        with acting(book, "tank plan") as session:
            accept_plan(session, plan=proposed, today=today())
    if as_json:
        show_json({"weeks": proposed.weeks, "accepted": accept})
        return
    _show_plan(proposed)
    if accept:
        say("The moves of the first week are on the work list: colony tank work.")
        say(CAUTION)


@app.command("work")
def work(
    book: Book = None,
    *,
    drop: Annotated[
        list[str] | None,
        typer.Option(
            "--drop",
            help="Take an animal off the list; repeat for several.",
            autocompletion=complete_tag,
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """List the moves that were accepted and are still to be done; a move ticks itself off."""
    from colony.acts.work import drop_moves, list_moves

    if drop:
        with acting(book, "tank work") as session:
            drop_moves(session, tags=drop, today=today())
    with reading(book) as session:
        moves = list_moves(session, today=today())
    if as_json:
        show_json(moves)
    else:
        show_moves(moves)


def show_moves(moves: "list[MoveLine]") -> None:
    """Print the work list with the caution that belongs to it."""
    show_table(
        ("Animal", "From", "To", "By", "Why"),
        (
            (m.tag, m.from_tank, m.to_tank, f"{m.by}{' late' if m.overdue else ''}", m.why)
            for m in moves
        ),
        none="Nothing is on the work list.",
    )
    if moves:
        say(CAUTION)


def _show_plan(proposed: "HousingPlan") -> None:
    rows = [
        (week.begins, move.tag, move.from_tank, move.to_tank, move.by, move.why)
        for week in proposed.weeks
        for move in week.moves
    ]
    show_table(("Week", "Animal", "From", "To", "By", "Why"), rows, none="No move is needed.")
    for week in proposed.weeks:
        if week.remedy:
            tank = week.remedy.tank
            or_tank = (
                f", or one more tank of {tank.length_mm / 10:g} x {tank.width_mm / 10:g} cm"
                if tank
                else ""
            )
            why = "proved that" if week.impossible else "found, not proved, that"
            warn(
                [
                    f"Week of {week.begins}: {why} no arrangement keeps the limits; enough would be to sell {', '.join(week.remedy.sell)} by {week.remedy.by}{or_tank}."
                ]
            )
        elif not week.optimal:
            say(f"Week of {week.begins}: not proved to be the fewest moves (gap {week.gap:.0%}).")
    warn(
        dict.fromkeys(
            f"{why}: nobody there may be moved." for week in proposed.weeks for why in week.stuck
        )
    )


def _bars(loads: list[float | None], limit: float) -> str:
    return "".join(
        " "
        if load is None
        else OVER
        if load > limit
        else BLOCKS[min(int(load / limit * len(BLOCKS)), len(BLOCKS) - 1)]
        for load in loads
    )


def _percent(load: float | None) -> str | None:
    return None if load is None else f"{load:.0%}"
