"""`colony water`: the plan of changes, tests and limits, reserve and regimes."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.opened import acting, reading, volume_unit
from colony.commands.cli.options import AsJson, Book, On, subject
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.read import day, today
from colony.commands.water.tests import VERBS, Note, System
from colony.notation.measures import parse_volume_l
from colony.notation.tags import parse_text

if TYPE_CHECKING:
    from colony.acts.water.plan import DayLine, WaterWeek

app = subject()

for verb, command in VERBS.items():
    app.command(verb)(command)


@app.command("plan")
def plan(
    days: Annotated[int, typer.Option(help="Days to plan.", min=1, max=28)] = 7,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Lay the changes of today and this week within the reserve, urgent ones first."""
    from colony.acts.water.plan import water_plan

    with reading(book) as session:
        week = water_plan(session, days=days, today=today())
    if as_json:
        show_json(week)
        return
    for line in week.days:
        _show_day(line)
    _show_shortage(week)
    warn(week.warnings)
    say(" ".join(week.cautions))


@app.command("changed")
def changed(
    system: System,
    litres: Annotated[
        str | None, typer.Argument(help="Litres changed; without: those of its regime.")
    ] = None,
    on: On = "today",
    note: Note = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a water change; it ticks the change off."""
    from colony.acts.water.changes import change_water

    with acting(book, "water changed") as session:
        done = change_water(
            session,
            system=system,
            litres=parse_volume_l(litres, volume_unit(session)) if litres else None,
            on=day(on),
            note=parse_text(note, "note") if note else None,
            today=today(),
        )
    if as_json:
        show_json(done)
        return
    say(f"{done.system}: {done.litres} L changed ({done.percent:g} %). {' '.join(done.cautions)}")
    warn(done.warnings)


@app.command("regime")
def regime(
    system: System,
    percent: Annotated[
        float | None, typer.Option(help="Percent of a batch change.", min=0.1, max=100)
    ] = None,
    every: Annotated[
        int | None, typer.Option(help="A batch every so many days.", min=1, max=365)
    ] = None,
    drip: Annotated[str | None, typer.Option(help="A constant drip, litres a day: 120L.")] = None,
    most: Annotated[
        float, typer.Option(help="The most percent that may be changed in a day.", min=1, max=100)
    ] = 50.0,
    book: Book = None,
) -> None:
    """Set how a system's water is renewed: in batches, by a drip, or both."""
    from colony.acts.water.changes import Regime, set_regime

    with acting(book, "water regime") as session:
        drip_l = parse_volume_l(drip, volume_unit(session)) if drip else None
        set_regime(
            session,
            system=system,
            regime=Regime(percent, every, drip_l, most),
            today=today(),
        )
    say(f"The water regime of {system} is set.")


@app.command("reserve")
def reserve(
    volume: Annotated[str | None, typer.Option(help="What it holds: 2000L.")] = None,
    refill: Annotated[str | None, typer.Option(help="What a night brings: 600L.")] = None,
    level: Annotated[
        str | None, typer.Option(help="What was in it this morning: 1500L, or 0.")
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show the reserve of ready water, or set it and write down its level."""
    from colony.acts.water.changes import reserve_now, set_reserve

    if volume or refill or level:
        with acting(book, "water reserve") as session:
            unit = volume_unit(session)
            set_reserve(
                session,
                capacity_l=_litres(volume, unit),
                refill_l=_litres(refill, unit),
                level_l=_litres(level, unit),
                today=today(),
            )
    with reading(book) as session:
        state = reserve_now(session, today=today())
    if as_json:
        show_json(state)
    elif state is None:
        say("No reserve is set: colony water reserve --volume 2000L --refill 600L.")
    else:
        say(
            f"{state.level_l} of {state.capacity_l} L; {state.refill_l} L come a night, "
            f"{state.drip_l_a_day} L a day drip away."
        )


def _show_day(line: "DayLine") -> None:
    held = "" if line.reserve_l is None else f" reserve {line.reserve_l} L, {line.left_l} L left;"
    drip = f" {line.drip_l} L drip;" if line.drip_l else ""
    say(f"\n{line.on}:{held}{drip} {line.minutes} minutes")
    show_table(
        (">", "System", "Tanks", ">Litres", ">Of it", ">Minutes", "Why"),
        (
            (
                change.order,
                change.system,
                " ".join(change.tanks),
                change.litres,
                f"{change.percent:.0f} %",
                change.minutes,
                ("URGENT " if change.urgent else "part " if change.part else "") + change.why,
            )
            for change in line.changes
        ),
        none="No change.",
    )


def _show_shortage(week: "WaterWeek") -> None:
    if week.fits:
        return
    short = ", ".join(f"{name} {litres} L" for name, litres in week.short_l.items())
    say(f"\nNot enough water. Cannot be laid this week: {short or 'nothing, but some is late'}.")
    if week.relief is None:
        return
    ways = (
        ("more a night", week.relief.more_refill_l),
        ("more on hand this morning", week.relief.more_today_l),
        ("larger reserve", week.relief.larger_reserve_l),
    )
    enough = [f"{litres} L {way}" for way, litres in ways if litres is not None]
    if week.relief.share_percent:
        enough.append(f"every change and drip cut to {week.relief.share_percent} %")
    say(f"Enough would be: {', or '.join(enough) or 'only several of these together'}.")


def _litres(text: str | None, unit: str) -> int | None:
    """Litres, nothing among them: an empty reserve is a level too."""
    if text is None or text.strip().rstrip("lL").strip() == "0":
        return None if text is None else 0
    return parse_volume_l(text, unit)
