"""`colony health`: look-overs, vet visits, who to watch, deaths and survival."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book, Tag
from colony.commands.cli.output import say, show_facts, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day_or_none, today
from colony.notation.fields.health import (
    LOOK_OVER_FACTS,
    LOOKED_AT,
    REPORT_FACTS,
    VET,
    VISIT_FACTS,
)
from colony.notation.words import parse_word

if TYPE_CHECKING:
    from colony.acts.health.deaths import DeathLine, DeathPage
    from colony.planning.health.survival import SurvivalAt

app = subject()

OPTIONS_OF_REPORT = tuple(field for field in REPORT_FACTS if field != VET)
GROUPS = ("all", "dam", "sire", "tank", "season")

Since = Annotated[str | None, typer.Option(help="From this day on.")]


@app.command("look")
@with_options(LOOK_OVER_FACTS, new=True)
def look(
    typed: Typed,
    tag: Annotated[str | None, argument(LOOKED_AT)] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a look-over of an animal or a tank; without a sign all was well."""
    from colony.acts.health.look_over import look_over
    from colony.notation.care import WELL

    facts = read_typed(LOOK_OVER_FACTS, typed, new=True)
    signs = facts.pop("signs") or [WELL]
    with acting(book, "health look") as session:
        found = look_over(session, tag=tag, signs=signs, **facts, today=today())
    if as_json:
        show_json(found)
        return
    say(f"{found.of}: {', '.join(found.signs)}. {' '.join(found.cautions)}")


@app.command("signs")
def signs(
    tag: Annotated[
        str | None, typer.Argument(help="Only this animal.", autocompletion=complete_tag)
    ] = None,
    tank: Annotated[str | None, typer.Option(help="Only this tank.")] = None,
    since: Since = None,
    book: Book = None,
    *,
    all_: Annotated[
        bool, typer.Option("--all", help="Also look-overs that found all well.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List the signs that look-overs found."""
    from colony.acts.health.look_over import list_signs

    with reading(book) as session:
        lines = list_signs(session, tag=tag, tank=tank, since=day_or_none(since), well_too=all_)
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Day", "Animal", "Tank", "Sign", "Note"),
        ((line.on, line.animal, line.tank, line.sign, line.note) for line in lines),
        none="No sign is in the book.",
    )


@app.command("watch")
def watch(book: Book = None, *, as_json: AsJson = False) -> None:
    """List who refuses food, stands still or showed a sign."""
    from colony.acts.health.watch import watch_list

    with reading(book) as session:
        lines = watch_list(session, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Animal", "Tank", "Why", "Since", "Held"),
        ((line.tag, line.tank, line.why, line.since, line.held) for line in lines),
        none="Nobody asks for a second look.",
    )
    if lines:
        say(lines[0].caution)


@app.command("vet")
@with_options((*OPTIONS_OF_REPORT, *VISIT_FACTS), new=True)
def vet(
    vet: Annotated[str, argument(VET)],
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a vet's visit; prescriptions are kept word for word and never suggested."""
    from colony.acts.health.vet_visits import VetReport, record_visit

    reported = read_typed(REPORT_FACTS, {VET.name: vet, **typed}, new=True)
    report = VetReport(**reported | {"prescriptions": reported["prescriptions"] or ()})
    facts = read_typed(VISIT_FACTS, typed, new=True)
    with acting(book, "health vet") as session:
        visit = record_visit(session, report=report, **facts, today=today())
    if as_json:
        show_json(visit)
        return
    say(f"{visit.vet} saw {', '.join(visit.animals)} on {visit.on}. {visit.caution}")


@app.command("visits")
def visits(
    tag: Annotated[
        str | None, typer.Argument(help="Only this animal.", autocompletion=complete_tag)
    ] = None,
    since: Since = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List vet visits with what was found and prescribed."""
    from colony.acts.health.vet_visits import list_visits

    with reading(book) as session:
        lines = list_visits(session, tag=tag, since=day_or_none(since))
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Day", "Vet", "Animals", "Why", "Found", "Prescribed"),
        (
            (v.on, v.vet, " ".join(v.animals), v.why, v.found, "; ".join(v.prescriptions) or None)
            for v in lines
        ),
        none="No vet visit is in the book.",
    )


@app.command("deaths")
def deaths(since: Since = None, book: Book = None, *, as_json: AsJson = False) -> None:
    """List the deaths; colony health death TAG shows one with the weeks before it."""
    from colony.acts.health.deaths import list_deaths

    with reading(book) as session:
        lines = list_deaths(session, since=day_or_none(since))
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Animal", "Died", "Of", ">Age", "Litter", "Tank"),
        (
            (
                d.tag,
                _died(d),
                d.why,
                None if d.age_days is None else f"{d.age_days}d",
                d.litter,
                d.tank,
            )
            for d in lines
        ),
        none="No death is in the book.",
    )


@app.command("death")
def death(
    tag: Tag,
    weeks: Annotated[int, typer.Option(help="How many weeks back.", min=1, max=52)] = 4,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show a death on one page: tanks, water, food, company, litter in the weeks before."""
    from colony.acts.health.deaths import death_page

    with reading(book) as session:
        page = death_page(session, tag=tag, weeks=weeks)
    if as_json:
        show_json(page)
    else:
        _show_death(page)


@app.command("survival")
def survival(
    by: Annotated[str, typer.Option(help=f"By {', '.join(GROUPS)}.")] = "all",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show what share of the pups lives to each age, with 95 % intervals for small numbers."""
    from colony.acts.health.survival import survival_by

    with reading(book) as session:
        lines = survival_by(session, by=parse_word(by, GROUPS, "grouping"), today=today())
    if as_json:
        show_json(lines)
        return
    ages = [at.days for at in lines[0].at]
    show_table(
        ("Group", ">Pups", ">Dead", *(f">{age}d" for age in ages)),
        ((line.group, line.born_live, line.died, *map(_share, line.at)) for line in lines),
    )
    say(
        "Percent alive (95 % interval) by Kaplan-Meier; sold pups count until they left. "
        "A death between two days counts by Turnbull."
    )


def _died(line: "DeathLine") -> str:
    unseen = line.last_seen is not None and line.last_seen < line.on
    return f"{line.last_seen} to {line.on}" if unseen else str(line.on)


def _share(at: "SurvivalAt") -> str:
    percent = "?" if at.share is None else f"{100 * at.share:.0f}"
    return f"{percent} ({100 * at.low:.0f}-{100 * at.high:.0f})"


def _show_death(page: "DeathPage") -> None:
    lists = (
        ("stays", ("Tank", "System", "From", "To", "With")),
        ("moves_nearby", ("Day", "Move")),
        ("water", ("Day", "Water")),
        ("food", ("Day", "Food")),
        ("refused", ("Day", "Refused")),
        ("signs", ("Day", "Animal", "Tank", "Sign", "Note")),
        ("holds", ("Day", "Hold")),
        ("litter_mates", ("Litter-mate", "Status", "On", "Of")),
    )
    show_facts(page, leave=(*(name for name, _ in lists), "vet_visits", "caution"))
    for name, columns in lists:
        rows = (vars(row).values() for row in getattr(page, name))
        show_table(
            columns, ([" ".join(v) if isinstance(v, list) else v for v in row] for row in rows)
        )
    for visit in page.vet_visits:
        say(f"{visit.on} {visit.vet}: {visit.why}; {visit.found or 'nothing written'}.")
    warn([page.caution])
