"""`colony tank outlook`, `plan` and `work`: the tanks in the weeks to come."""

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.notation.cautions import STING
from colony.notation.house import length_number, say_length

if TYPE_CHECKING:
    from colony.acts.tanks.moves import MoveLine
    from colony.acts.tanks.outlook import TankAhead
    from colony.planning.tanks.moves import Move, WeekPlan
    from colony.planning.tanks.plan import HousingPlan
    from colony.planning.tanks.remedies import Remedy

app = subject()


BLOCKS = "▁▂▃▄▅▆▇"
"""Load from nothing to the limit."""
OVER, EMPTY, UNKNOWN = "!", ".", "?"

Weeks = Annotated[int, typer.Option(help="How far to look.", min=1, max=104)]
Sales = Annotated[
    float | None,
    typer.Option(
        "--sales", help="Pups sold a week; without: as in the last weeks.", min=0, max=1000
    ),
]


@app.command("outlook")
def outlook(
    weeks: Weeks = 26, sales: Sales = None, book: Book = None, *, as_json: AsJson = False
) -> None:
    """Show the load of every tank week by week, and the first day each breaks a limit."""
    from colony.acts.tanks.outlook import tank_outlook

    with reading(book) as session:
        tanks = tank_outlook(session, weeks=weeks, sales_per_week=sales, today=today())
    if as_json:
        show_json(tanks)
        return
    _show_outlook(tanks)


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
    from colony.acts.tanks.outlook import accept_plan, moves_to_accept, plan_tanks

    with reading(book) as session:
        proposed = plan_tanks(session, weeks=weeks, sales_per_week=sales, today=today())
    accepted = accept and bool(moves_to_accept(proposed))
    if accepted:
        with acting(book, "tank plan") as session:
            accept_plan(session, plan=proposed, today=today())
    if as_json:
        show_json({"weeks": proposed.weeks, "accepted": accepted})
        return
    _show_plan(proposed)
    if accepted:
        say("The moves of the first week are on the work list: colony tank work.")
    elif accept:
        say("The first week has no move to accept.")


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
    from colony.acts.tanks.moves import drop_moves, list_moves

    if drop:
        with acting(book, "tank work") as session:
            drop_moves(session, tags=drop, today=today())
    with reading(book) as session:
        moves = list_moves(session, today=today())
    if as_json:
        show_json(moves)
        return
    late = {(m.from_tank, m.to_tank, m.by) for m in moves if m.overdue}
    _show_moves(moves, late, none="Nothing is on the work list.")


def _show_outlook(tanks: "Sequence[TankAhead]") -> None:
    show_table(
        ("Tank", ">Now", "Week by week", ">Then", "Breaks a limit"),
        (
            (
                t.tank,
                _percent(t.loads[0]),
                "".join(_sign(load, t.load_limit) for load in t.loads),
                _percent(t.loads[-1]),
                t.breaks[0]["day"] if t.breaks else None,
            )
            for t in tanks
        ),
        none="No tank is in the book: colony tank system, then colony tank add.",
    )
    if tanks:
        say(
            f"{EMPTY} empty, {BLOCKS[0]} to {BLOCKS[-1]} up to the limit, {OVER} over it, "
            f"{UNKNOWN} size not recorded."
        )
    for tank in tanks:
        if tank.breaks:
            say(f"{tank.breaks[0]['day']}: {tank.breaks[0]['why']}.")


def _show_plan(proposed: "HousingPlan") -> None:
    moves = [move for week in proposed.weeks for move in week.moves]
    _show_moves(moves, (), none="No move is needed or would help.")
    for week in proposed.weeks:
        if week.remedy:
            warn([_remedy_told(week, week.remedy)])
        elif not week.optimal:
            say(
                f"Week of {week.begins}: a better plan might save up to {week.gap:.0%} of the moves."
            )
    stuck: dict[str, str] = {}
    for why in (why for week in proposed.weeks for why in week.stuck):
        stuck.setdefault(why.split()[0], why)  # once a tank, though its load grows week by week
    warn(f"{why}: nobody there may be moved." for why in stuck.values())


def _remedy_told(week: "WeekPlan", remedy: "Remedy") -> str:
    found = (
        "no arrangement keeps every limit, that is proved"
        if week.impossible
        else "none found that keeps every limit; one may exist"
    )
    ways = [f"to sell {', '.join(remedy.sell)} by {remedy.by}"] if remedy.sell else []
    if remedy.tank:
        size = f"{length_number(remedy.tank.length_mm)} x {say_length(remedy.tank.width_mm)}"
        ways.append(f"one more tank of {size}")
    enough = f" Enough would be {', or '.join(ways)}." if ways else ""
    return f"Week of {week.begins}: {found}.{enough}"


def _show_moves(
    moves: "Sequence[Move | MoveLine]",
    late: Iterable[tuple[str | None, str, object]],
    *,
    none: str,
) -> None:
    """Print moves, those of one litter in one row, each reason once, and the caution."""
    rows: dict[tuple[str | None, str, object, str | None], list[str]] = {}
    for m in moves:
        rows.setdefault((m.from_tank, m.to_tank, m.by, m.litter), []).append(m.tag)
    show_table(
        ("By", "Animals", "From", "To"),
        (
            (f"{by} late" if (source, to, by) in late else by, " ".join(tags), source, to)
            for (source, to, by, _), tags in rows.items()
        ),
        none=none,
    )
    for why in dict.fromkeys(m.why for m in moves):
        say(f"{why}.")
    if moves:
        say(STING)


def _sign(load: float | None, limit: float) -> str:
    if load is None:
        return UNKNOWN
    if load > limit:
        return OVER
    return BLOCKS[min(int(load / limit * len(BLOCKS)), len(BLOCKS) - 1)] if load else EMPTY


def _percent(load: float | None) -> str | None:
    return None if load is None else f"{load:.0%}"
