"""The part of `colony water` that is about tests: values, trends and limits."""

import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Annotated

import typer

from colony.commands.cli.fields import Typed, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson
from colony.commands.cli.read import day_or_none, today
from colony.notation.fields.water import LIMIT_FACTS, TEST_FACTS
from colony.notation.house import reading_key, reading_number, reading_unit, say_mass
from colony.notation.readings import (
    Terms,
    names_ammonia_alone,
    parse_bound,
    parse_parameter,
    parse_reading,
)

System = Annotated[str, typer.Argument(help="The system whose water it is.")]


@with_options(TEST_FACTS, new=True)
def log_values(
    system: System,
    values: Annotated[
        list[str], typer.Argument(help="Values: ph=6.8 nitrate_mg_l=25 temperature_c=27.5 ...")
    ],
    typed: Typed,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down a water test; what is outside the limits of who lives there is named."""
    from colony.acts.water.tests import log_test

    terms = _terms(book, values)
    measured = dict(parse_reading(text, terms) for text in values)
    with acting(book, "water test") as session:
        tested = log_test(
            session,
            system=system,
            values=measured,
            **read_typed(TEST_FACTS, typed, new=True),
            today=today(),
        )
    if as_json:
        show_json(tested)
        return
    say(f"{tested.system}: {len(measured)} values written down. {' '.join(tested.cautions)}")
    warn(tested.warnings)


def _terms(book: str | None, values: list[str]) -> Terms:
    """The terms of the house's tests; how its ammonia is meant is asked once, at a terminal."""
    from colony.acts.water.terms import ammonia_was_said, read_terms, say_ammonia

    with reading(book) as session:
        terms, said = read_terms(session), ammonia_was_said(session)
    if said or not sys.stdin.isatty() or not any(map(names_ammonia_alone, values)):
        return terms
    as_nh3 = typer.confirm("Does your test say ammonia as NH3 (no: as nitrogen, N)?", err=True)
    how = "NH3" if as_nh3 else "N"
    with acting(book, "book settings") as session:
        say_ammonia(session, how)
    return replace(terms, ammonia_as=how)


def show(system: System, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show what the tests say of a system, its limits, and the nitrate to expect."""
    from colony.acts.water.nitrate import nitrate_outlook
    from colony.acts.water.tests import water_now

    with reading(book) as session:
        lines = water_now(session, system=system, today=today())
        outlook = nitrate_outlook(session, system=system, today=today())
    if as_json:
        show_json({"water": lines, "nitrate": outlook})
        return
    show_table(
        ("Parameter", ">Value", "Unit", "On", ">Least", ">Most", ""),
        (
            (
                reading_key(line.parameter),
                _number(line.value, line.parameter),
                reading_unit(line.parameter),
                line.on,
                _number(line.low, line.parameter),
                _number(line.high, line.parameter),
                "" if line.within else "OUTSIDE",
            )
            for line in lines
        ),
        none=f"No test of {system} in the last two weeks: colony water test {system} ph=6.8 ...",
    )
    say(
        f"Nitrate expected today: {_number(outlook.expected_mg_l) or '-'} mg/L; "
        f"in the long run: {_number(outlook.long_run_mg_l) or '-'} mg/L "
        f"at {say_mass(outlook.food_g_a_day)} of food a day."
    )
    if outlook.left_out:
        warn([f"{outlook.left_out} feedings have no grams or no protein and are not reckoned."])


def trend(
    system: System,
    parameter: Annotated[str, typer.Argument(help="What was tested: ph, nitrate_mg_l, ...")],
    since: Annotated[str | None, typer.Option(help="From this day on.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Draw one parameter of a system in time, between its limits."""
    from colony.acts.water.tests import water_trend

    word = parse_parameter(parameter)
    with reading(book) as session:
        found = water_trend(
            session, system=system, parameter=word, since=day_or_none(since), today=today()
        )
    if as_json:
        show_json(found)
        return
    unit = reading_unit(found.parameter)
    say(f"{found.system}: {reading_key(found.parameter)} {unit}".rstrip())
    for line in found.drawn or ("Nothing was tested since then.",):
        say(line)


def limits(book: Book = None, *, as_json: AsJson = False) -> None:
    """List the limits of water, each with its source."""
    from colony.acts.water.tests import list_limits

    with reading(book) as session:
        lines = list_limits(session)
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Parameter", "Species", ">Least", ">Most", "Source"),
        (
            (
                reading_key(line.parameter),
                line.species or "all",
                _number(line.low, line.parameter),
                _number(line.high, line.parameter),
                line.source,
            )
            for line in lines
        ),
    )


@with_options(LIMIT_FACTS, new=True)
def limit(
    parameter: Annotated[str, typer.Argument(help="What is tested: ph, nitrate_mg_l, ...")],
    typed: Typed,
    book: Book = None,
) -> None:
    """Set a limit of water for a species or for all, with its source."""
    from colony.acts.water.terms import read_terms
    from colony.acts.water.tests import set_limit

    word = parse_parameter(parameter, with_unionised=True)
    facts = read_typed(LIMIT_FACTS, typed, new=True)
    with acting(book, "water limit") as session:
        terms = read_terms(session)
        facts |= {name: parse_bound(word, facts[name], terms) for name in ("low", "high")}
        set_limit(session, parameter=word, **facts)
    low, high = (_number(facts[name], word) or "-" for name in ("low", "high"))
    say(f"{reading_key(word)} of {facts['species'] or 'all'}: least {low}, most {high}.")


def _number(value: float | None, parameter: str = "") -> str | None:
    return None if value is None else f"{round(reading_number(parameter, value), 4):g}"


VERBS: dict[str, Callable[..., None]] = {
    "test": log_values,
    "show": show,
    "trend": trend,
    "limits": limits,
    "limit": limit,
}
"""Each verb of `colony water` that is about tests."""
