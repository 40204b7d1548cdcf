"""`colony pairing plan`: the best set of pairings for the whole colony."""

from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.completion import complete_tag
from colony.commands.opened import acting, reading
from colony.commands.options import AsJson, Book, On
from colony.commands.output import say, show_json, show_table, warn
from colony.commands.pairings import app
from colony.commands.read import day, today
from colony.notation.pairs import parse_pair, parse_wanted

if TYPE_CHECKING:
    from colony.acts.pairing_plan import Proposed
    from colony.planning.pairing_wishes import Wishes

Pairs = list[str] | None


@app.command("plan")
def plan(
    litters: Annotated[
        int | None, typer.Option(help="Litters wanted in all; without: as many as can be.", min=0)
    ] = None,
    wanted: Annotated[
        list[str] | None, typer.Option(help="Litters of a species or line: leopoldi=4.")
    ] = None,
    males_max: Annotated[int, typer.Option(help="Females at most for one male.", min=1)] = 4,
    group_size: Annotated[
        int | None, typer.Option(help="Females at most in one tank, with --tanks.", min=1)
    ] = None,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    weight: Annotated[
        float, typer.Option(help="What kinship of the next generation counts against F.", min=0)
    ] = 1.0,
    founders: Annotated[
        float, typer.Option(help="What genes of rare founders count.", min=0)
    ] = 0.0,
    max_f: Annotated[
        float | None, typer.Option(help="No litter above this F.", min=0, max=1)
    ] = None,
    with_: Annotated[Pairs, typer.Option("--with", help="A pair that must be: DAM*SIRE.")] = None,
    never: Annotated[Pairs, typer.Option(help="A pair that must not be: DAM*SIRE.")] = None,
    without: Annotated[
        list[str] | None, typer.Option(help="Plan as if without it.", autocompletion=complete_tag)
    ] = None,
    ignore: Annotated[
        list[str] | None, typer.Option(help="A rule to override: rest, line, or rest:TAG.")
    ] = None,
    generations: Annotated[
        int,
        typer.Option(
            help="Generations to simulate, beside chance and least kin first.", min=0, max=10
        ),
    ] = 0,
    seed: Annotated[int, typer.Option(help="Seed of the simulation.", min=0)] = 0,
    seconds: Annotated[float, typer.Option(help="Time limit.", min=0.1, max=3600)] = 60.0,
    on: On = "today",
    book: Book = None,
    *,
    tanks: Annotated[
        bool, typer.Option("--tanks", help="Groups must fit the breeding tanks: one male a tank.")
    ] = False,
    worst: Annotated[
        bool, typer.Option("--worst", help="Count doubtful sires at their worst.")
    ] = False,
    compare: Annotated[
        bool, typer.Option("--compare", help="Beside the plan without --with and --without.")
    ] = False,
    accept: Annotated[
        bool, typer.Option("--accept", help="Start the pairings, and list the moves to do.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Plan all pairings at once: least inbred pups, and least kin in the next generation."""
    from colony.acts.pairing_plan import PlanAsked, accept_plan, propose_plan
    from colony.planning.pairing_future import Draw
    from colony.planning.pairing_wishes import Wishes

    wishes = Wishes(
        litters=litters,
        wanted=dict(parse_wanted(one) for one in wanted or ()),
        most_females=males_max,
        group_size=group_size,
        weight=weight,
        founder_weight=founders,
        highest_inbreeding=max_f,
        at_worst=worst,
        must=frozenset(parse_pair(one) for one in with_ or ()),
        must_not=frozenset(parse_pair(one) for one in never or ()),
        without=frozenset(without or ()),
        overridden=frozenset(ignore or ()),
    )
    asked = PlanAsked(wishes, species, tanks, seconds)
    draw = Draw(generations=generations, seed=seed) if generations else None
    start = day(on)
    with reading(book) as session:
        proposed = propose_plan(session, asked=asked, compare=compare, draw=draw, today=today())
    if accept:
        with acting(book, "pairing plan") as session:
            accept_plan(session, plan=proposed.plan, on=start, today=today())
    if as_json:
        show_json(proposed.as_document() | {"accepted": accept})
        return
    _show(proposed, wishes)
    if accept:
        say(
            f"{len(proposed.plan.pairs)} pairings are started; the moves are on the list: colony tank work."
        )
        say("Adults: two people, a rigid container, and mind the tail.")


def _show(proposed: "Proposed", wishes: "Wishes") -> None:
    best = proposed.plan
    show_table(
        ("Dam", "Sire", ">F of pups", ">At worst", "Tank", "Although"),
        (
            (
                p.dam,
                p.sire,
                p.expected_inbreeding,
                p.worst_inbreeding,
                p.tank,
                "; ".join(r.text for r in p.reasons) or None,
            )
            for p in best.pairs
        ),
    )
    warn(best.notes)
    if best.pairs:
        proof = (
            "proved best" if best.optimal else f"not proved best, at most {best.gap:.2%} above it"
        )
        say(
            f"Mean F {best.mean_expected_inbreeding:.4f}, mean kinship of the next generation {best.next_mean_kinship:.4f}; {proof} (weight {wishes.weight:g})."
        )
    show_table(
        ("To carry", "From", "To"),
        ((m.tag, m.from_tank, m.to_tank or "any other tank") for m in best.moves),
    )
    _show_comparison(proposed)
    _show_futures(proposed)
    shown = [one for one in best.left_out if not _is_no_news(one.reasons[0].name)]
    show_table(
        ("Left out", "Why"), ((one.tag, "; ".join(r.text for r in one.reasons)) for one in shown)
    )
    if len(best.left_out) > len(shown):
        say(f"and {len(best.left_out) - len(shown)} too young or too small: --json names all.")


def _is_no_news(rule: str) -> bool:
    return rule in {"age", "width"}


def _show_comparison(proposed: "Proposed") -> None:
    if proposed.comparison is None:
        return
    show_table(
        ("Figure", ">Without what-if", ">With it", ">Difference"),
        (
            (m.name.replace("_", " "), m.first, m.second, f"{m.difference:+.4f}")
            for m in proposed.comparison.measures
        ),
    )
    for word, pairs in (
        ("Only without", proposed.comparison.only_first),
        ("Only with", proposed.comparison.only_second),
    ):
        if pairs:
            say(f"{word}: {', '.join(f'{p.dam} x {p.sire}' for p in pairs)}.")


def _show_futures(proposed: "Proposed") -> None:
    show_table(
        ("Way", ">Generation", ">Mean kinship", ">+-", ">Gene diversity", ">Mean F"),
        (
            (
                future.way,
                ahead.generation,
                ahead.mean_kinship,
                ahead.standard_error,
                ahead.gene_diversity,
                ahead.mean_inbreeding,
            )
            for future in proposed.futures
            for ahead in future.ahead
        ),
    )
