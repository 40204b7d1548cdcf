"""`colony tank`: tanks and systems, who swims where, and moves."""

from typing import Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import acting, length_unit, reading, volume_unit
from colony.commands.cli.options import AsJson, Book, On, subject
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.read import day, day_or_none, today
from colony.notation.measures import parse_length_mm, parse_volume_l
from colony.notation.tags import parse_tag, parse_text
from colony.notation.words import ROLES, parse_word

app = subject()

CAUTION = "Stings happen at moves: a rigid container, not a net; two people for adults."


BAR = 20
"""Characters of a full load bar."""

Length = Annotated[str | None, typer.Option(help="Inner length: 240cm, 96in.")]
Width = Annotated[str | None, typer.Option(help="Inner width.")]
Diameter = Annotated[str | None, typer.Option(help="Inner diameter of a round tank.")]
Height = Annotated[str | None, typer.Option("--water", help="Height of the water.")]
Volume = Annotated[str | None, typer.Option(help="Volume: 1800L, 480gal.")]
Note = Annotated[str | None, typer.Option(help="A note.")]


@app.command("system")
def system(
    name: Annotated[str, typer.Argument(help="Name of the system of shared water.")],
    volume: Volume = None,
    started: Annotated[str | None, typer.Option(help="The day its filter began to mature.")] = None,
    note: Note = None,
    book: Book = None,
) -> None:
    """Make a system of shared water, or mend one."""
    from colony.acts.tanks.tanks import set_system

    with acting(book, "tank system", begin=True) as session:
        set_system(
            session,
            name=parse_tag(name),
            volume_l=parse_volume_l(volume, volume_unit(session)) if volume else None,
            started=day_or_none(started),
            note=parse_text(note, "note") if note else None,
        )
    say(f"System {name} is in the book.")


@app.command("add")
def add(
    code: Annotated[str, typer.Argument(help="The code on the tank.")],
    system: Annotated[str, typer.Option(help="The system whose water it shares.")],
    role: Annotated[
        str, typer.Option(help="breeding, nursery, grow-out, intake or hospital.")
    ] = "grow-out",
    length: Length = None,
    width: Width = None,
    diameter: Diameter = None,
    water: Height = None,
    volume: Volume = None,
    order: Annotated[
        int | None,
        typer.Option(help="Its place on your walk through the house.", min=1, max=100_000),
    ] = None,
    note: Note = None,
    book: Book = None,
) -> None:
    """Make a tank on a system."""
    from colony.acts.tanks.tanks import TankSize, add_tank

    with acting(book, "tank add") as session:
        unit = length_unit(session)
        length_mm, width_mm, diameter_mm, water_mm = (
            parse_length_mm(text, unit) if text else None
            for text in (length, width, diameter, water)
        )
        volume_l = parse_volume_l(volume, volume_unit(session)) if volume else None
        add_tank(
            session,
            code=parse_tag(code),
            system=system,
            role=parse_word(role, ROLES, "role"),
            size=TankSize(length_mm, width_mm, diameter_mm, water_mm, volume_l),
            walking_order=order,
            note=parse_text(note, "note") if note else None,
        )
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
                _percent(t.load),
                _bar(t.load, t.load_limit),
                _who(t.animals),
            )
            for t in lines
        ),
        none="No tank is in the book: colony tank system, then colony tank add.",
    )
    warn(sentence for tank in lines for sentence in tank.breaks)


@app.command("move")
def move(
    tags: Annotated[
        list[str],
        typer.Argument(help="Animals, then the tank: TAG ... TANK.", autocompletion=complete_tag),
    ],
    on: On = "today",
    why: Annotated[
        str | None, typer.Option(help="Why; needed to leave isolation before its end.")
    ] = None,
    book: Book = None,
    *,
    anyway: Annotated[
        bool, typer.Option("--anyway", help="Override the limits, and say so.")
    ] = False,
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
            on=day(on),
            anyway=anyway,
            why=parse_text(why, "reason") if why else None,
            today=today(),
        )
    if as_json:
        show_json(moved)
        return
    say(f"{', '.join(moved.moved)} now in {moved.tank}.")
    warn(moved.warnings)
    say(CAUTION)


def _percent(load: float | None) -> str | None:
    return None if load is None else f"{load:.0%}"


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
