"""`colony tank`: tanks and systems, who swims where, and moves."""

from dataclasses import replace
from typing import Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Anyway, Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.notation.cautions import STING
from colony.notation.fields.tanks import MOVE_FACTS, MOVED, SYSTEM_FACTS, TANK_FACTS
from colony.notation.tags import parse_tag

app = subject()

BAR = 20
"""Characters of a full load bar."""

CODE = TANK_FACTS[0]
ADDED = tuple(
    replace(field, first="grow-out") if field.name == "role" else field for field in TANK_FACTS[1:]
)
"""What is said of a new tank beside its code; one of no role grows pups out."""


@app.command("system")
@with_options(SYSTEM_FACTS)
def system(
    name: Annotated[str, typer.Argument(help="Name of the system of shared water.")],
    typed: Typed,
    book: Book = None,
) -> None:
    """Make a system of shared water, or correct one."""
    from colony.acts.tanks.tanks import set_system
    from colony.store.settings import read_settings

    with acting(book, "tank system", begin=True) as session:
        facts = read_typed(SYSTEM_FACTS, typed, read_settings(session))
        set_system(session, name=parse_tag(name), **facts)
    say(f"System {name} is in the book.")


@app.command("add")
@with_options(ADDED, new=True)
def add(
    code: Annotated[str, argument(CODE)],
    typed: Typed,
    book: Book = None,
) -> None:
    """Make a tank on a system."""
    from colony.acts.tanks.tanks import add_tank
    from colony.store.settings import read_settings

    with acting(book, "tank add") as session:
        facts = read_typed(ADDED, typed, read_settings(session), new=True)
        add_tank(session, code=parse_tag(code), **facts)
    say(f"Tank {code} is in the book. Power off before hands go in.")


@app.command("list")
def list_(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the tanks in walking order with their occupants, load and broken limits."""
    from colony.acts.tanks.loads import list_tanks

    with reading(book) as session:
        lines = list_tanks(session, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Tank", "System", "Role", ">Load", "", "Animals"),
        (
            (
                t.tank,
                t.system,
                t.role,
                None if t.load is None else f"{t.load:.0%}",
                _bar(t.load, t.load_limit),
                _who(t.animals),
            )
            for t in lines
        ),
        none="No tank is in the book: colony tank system, then colony tank add.",
    )
    warn(sentence for tank in lines for sentence in tank.breaks)


@app.command("move")
@with_options(MOVE_FACTS, new=True)
def move(
    tags: Annotated[list[str], argument(MOVED)],
    typed: Typed,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Move animals into a tank: the last word is the tank."""
    from colony.acts.tanks.tanks import move as move_animals
    from colony.refusals.tanks import MoveNeedsTank

    *animals, tank = tags
    if not animals:
        raise MoveNeedsTank
    with acting(book, "tank move") as session:
        moved = move_animals(
            session,
            tags=animals,
            tank=tank,
            anyway=anyway,
            **read_typed(MOVE_FACTS, typed, new=True),
            today=today(),
        )
    if as_json:
        show_json(moved)
        return
    say(f"{', '.join(moved.moved)} now in {moved.tank}.")
    warn(moved.warnings)
    say(STING)


def _bar(load: float | None, limit: float) -> str:
    """Load against its limit; the mark `|` is the limit, what stands beyond it is too much."""
    if load is None:
        return ""
    filled = round(load / limit * BAR / 2)
    bar = "#" * min(filled, BAR // 2) + "." * (BAR // 2 - filled) + "|"
    return bar + "#" * min(filled - BAR // 2, BAR // 2)


def _who(tags: list[str]) -> str | None:
    shown = 6
    more = f" +{len(tags) - shown}" if len(tags) > shown else ""
    return " ".join(tags[:shown]) + more if tags else None
