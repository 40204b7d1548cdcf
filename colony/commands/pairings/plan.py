"""`colony pairing plan`: the best set of pairings for the whole colony."""

from typing import Annotated, Any

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import LARGEST, Book
from colony.commands.cli.output import show_json
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.notation.pairs import parse_all_wanted, parse_pair

app = subject()


Pairs = list[str] | None

MOST_WEIGHT = 100.0
"""More than this drowns the other aims, and the proof of the plan, in rounding."""


@app.command("plan")
def plan(
    litters: Annotated[
        int | None,
        typer.Option(help="Litters wanted in all; without: as many as can be.", min=0, max=LARGEST),
    ] = None,
    wanted: Annotated[
        list[str] | None, typer.Option(help="Litters of a species or line: leopoldi=4.")
    ] = None,
    most_females: Annotated[
        int, typer.Option("--males-max", help="Females at most for one male.", min=1, max=LARGEST)
    ] = 4,
    group_size: Annotated[
        int | None,
        typer.Option(help="Females at most in one tank, with --tanks.", min=1, max=LARGEST),
    ] = None,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    weight: Annotated[
        float,
        typer.Option(
            help="What kinship of the next generation counts against F.", min=0, max=MOST_WEIGHT
        ),
    ] = 1.0,
    founder_weight: Annotated[
        float,
        typer.Option(
            "--founders", help="What genes of rare founders count.", min=0, max=MOST_WEIGHT
        ),
    ] = 0.0,
    highest_inbreeding: Annotated[
        float | None, typer.Option("--max-f", help="No litter above this F.", min=0, max=1)
    ] = None,
    required_pairs: Annotated[
        Pairs, typer.Option("--with", help="A pair that must be: DAM*SIRE.")
    ] = None,
    forbidden_pairs: Annotated[
        Pairs, typer.Option("--never", help="A pair that must not be: DAM*SIRE.")
    ] = None,
    excluded: Annotated[
        list[str] | None,
        typer.Option("--without", help="Plan as if without it.", autocompletion=complete_tag),
    ] = None,
    overridden: Annotated[
        list[str] | None,
        typer.Option("--ignore", help="A rule to override: rest, line, or rest:TAG."),
    ] = None,
    generations: Annotated[
        int,
        typer.Option(
            help="Generations to simulate, beside chance and least kin first.", min=0, max=10
        ),
    ] = 0,
    seed: Annotated[int, typer.Option(help="Seed of the simulation.", min=0, max=LARGEST)] = 0,
    seconds: Annotated[float, typer.Option(help="Time limit.", min=0.1, max=3600)] = 60.0,
    on: Annotated[str, typer.Option(help="With --accept: the day the pairings start.")] = "today",
    book: Book = None,
    *,
    use_tanks: Annotated[
        bool, typer.Option("--tanks", help="Groups must fit the breeding tanks: one male a tank.")
    ] = False,
    at_worst: Annotated[
        bool, typer.Option("--worst", help="Count doubtful sires at their worst.")
    ] = False,
    compare: Annotated[
        bool,
        typer.Option("--compare", help="Beside the plan without --with, --never and --without."),
    ] = False,
    why: Annotated[
        bool, typer.Option("--why", help="All reasons of each animal that is left out.")
    ] = False,
    accept: Annotated[
        bool, typer.Option("--accept", help="Start the pairings, and list the moves to do.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Plan all pairings at once: least inbred pups, and least kin in the next generation."""
    from colony.acts.pairings.accept_plan import accept_plan
    from colony.acts.pairings.plan import propose_plan
    from colony.acts.pairings.plan_document import plan_document
    from colony.commands.cli.progress import search_watched
    from colony.commands.pairings.plan_output import show_plan
    from colony.planning.pairings.future import FutureDraw
    from colony.planning.pairings.request import PairingRequest

    request = PairingRequest(
        litters=litters,
        wanted=parse_all_wanted(wanted or ()),
        most_females=most_females,
        group_size=group_size,
        weight=weight,
        founder_weight=founder_weight,
        highest_inbreeding=highest_inbreeding,
        at_worst=at_worst,
        required_pairs=frozenset(parse_pair(pair) for pair in required_pairs or ()),
        forbidden_pairs=frozenset(parse_pair(pair) for pair in forbidden_pairs or ()),
        excluded=frozenset(excluded or ()),
        overridden=frozenset(overridden or ()),
        species=species,
        use_tanks=use_tanks,
        seconds=seconds,
    )
    draw = FutureDraw(generations=generations, seed=seed) if generations else None
    start, now, accepted = day(on), today(), None
    # What is accepted is planned in the same act, so that nobody changes the book in between.
    # Stopped, it is not accepted: Ctrl+C then stops the command, and nothing is written.
    asked: dict[str, Any] = {
        "request": request,
        "compare": compare,
        "draw": draw,
        "today": now,
    }
    if accept:
        with acting(book, "pairing plan", begin=False) as session:
            proposed = propose_plan(session, **asked)
            accepted = accept_plan(session, plan=proposed.plan, on=start, today=now)
    else:
        with reading(book) as session, search_watched() as watch:
            proposed = propose_plan(session, **asked, watch=watch)
    if as_json:
        show_json(plan_document(proposed, accepted))
    else:
        show_plan(proposed, accepted, weight=weight, why=why)
