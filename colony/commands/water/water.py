"""`colony water`: the plan of changes, tests and limits, reserve and regimes."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, insisting, reading
from colony.commands.cli.options import Anyway, Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.commands.water.tests import VERBS, System
from colony.notation.fields.water import CHANGE_FACTS, LITRES, REGIME_FACTS, RESERVE_FACTS
from colony.notation.house import say_volume, volume_number, volume_unit

if TYPE_CHECKING:
    from colony.acts.water.changes import Changed
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
@with_options(CHANGE_FACTS, new=True)
def changed(
    system: System,
    typed: Typed,
    litres: Annotated[str | None, argument(LITRES)] = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Write down a water change; it ticks the change off."""
    from colony.acts.water.changes import change_water
    from colony.store.settings import read_settings

    def write(sure: bool) -> "Changed":
        with acting(book, "water changed") as session:
            facts = read_typed((LITRES,), {LITRES.name: litres}, read_settings(session), new=True)
            facts |= read_typed(CHANGE_FACTS, typed, new=True)
            return change_water(session, system=system, **facts, anyway=sure, today=today())

    done = insisting(write, anyway=anyway)
    if as_json:
        show_json(done)
        return
    say(
        f"{done.system}: {say_volume(done.litres)} changed ({done.percent:g} %). {' '.join(done.cautions)}"
    )
    warn(done.warnings)


@app.command("regime")
@with_options(REGIME_FACTS, new=True)
def regime(
    system: System,
    typed: Typed,
    book: Book = None,
) -> None:
    """Set how a system's water is renewed: in batches, by a drip, or both."""
    from colony.acts.water.changes import Regime, set_regime
    from colony.store.settings import read_settings

    with acting(book, "water regime") as session:
        facts = read_typed(REGIME_FACTS, typed, read_settings(session), new=True)
        set_regime(session, system=system, regime=Regime(**facts), today=today())
    say(f"The water regime of {system} is set.")


@app.command("reserve")
@with_options(RESERVE_FACTS)
def reserve(
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show the reserve of ready water, or set it and write down its level."""
    from colony.acts.water.changes import reserve_now, set_reserve
    from colony.store.settings import read_settings

    if any(typed.values()):
        with acting(book, "water reserve") as session:
            facts = read_typed(RESERVE_FACTS, typed, read_settings(session), new=True)
            set_reserve(session, **facts, today=today())
    with reading(book) as session:
        state = reserve_now(session, today=today())
    if as_json:
        show_json(state)
    elif state is None:
        say("No reserve is set: colony water reserve --volume 2000L --refill 600L.")
    else:
        say(
            f"{volume_number(state.level_l)} of {say_volume(state.capacity_l)}; "
            f"{say_volume(state.refill_l)} come a night, "
            f"{say_volume(state.drip_l_a_day)} a day drip away."
        )


def _show_day(line: "DayLine") -> None:
    held = (
        ""
        if line.reserve_l is None or line.left_l is None
        else f" reserve {say_volume(line.reserve_l)}, {say_volume(line.left_l)} left;"
    )
    drip = f" {say_volume(line.drip_l)} drip;" if line.drip_l else ""
    say(f"\n{line.on}:{held}{drip} {line.minutes} minutes")
    show_table(
        (">", "System", "Tanks", "> " + volume_unit(), ">Of it", ">Minutes", "Why"),
        (
            (
                change.order,
                change.system,
                " ".join(change.tanks),
                volume_number(change.litres),
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
    short = ", ".join(f"{name} {say_volume(litres)}" for name, litres in week.short_l.items())
    say(f"\nNot enough water. Cannot be laid this week: {short or 'nothing, but some is late'}.")
    if week.relief is None:
        return
    ways = (
        ("more a night", week.relief.more_refill_l),
        ("more on hand this morning", week.relief.more_today_l),
        ("larger reserve", week.relief.larger_reserve_l),
    )
    enough = [f"{say_volume(litres)} {way}" for way, litres in ways if litres is not None]
    if week.relief.share_percent:
        enough.append(f"every change and drip cut to {week.relief.share_percent} %")
    say(f"Enough would be: {', or '.join(enough) or 'only several of these together'}.")
