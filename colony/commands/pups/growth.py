"""`colony pup ready` and `pup forecast`: who is ready, who will be, and who is off its curve."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import reading
from colony.commands.cli.options import LARGEST, Book, Yes
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.notation.days import parse_span_days, show_span
from colony.notation.house import show_length, units_now
from colony.notation.measures import parse_length_mm
from colony.notation.words import READY_GROUPS, parse_word

if TYPE_CHECKING:
    from colony.acts.pups.ready import ReadyWeek
    from colony.planning.pups.growth_flags import OffCurve
    from colony.planning.pups.readiness import Readiness


app = subject()


@app.command("ready")
def ready(
    min_age: Annotated[
        str | None, typer.Option(help="Least age, such as 8w or 60d; without: the species'.")
    ] = None,
    min_width: Annotated[
        str | None, typer.Option(help="Least disc width, such as 12cm; without: the species'.")
    ] = None,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    by: Annotated[str | None, typer.Option(help="Group them: litter, tank or species.")] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0, max=LARGEST)] = 100,
    book: Book = None,
    *,
    all_: Annotated[
        bool, typer.Option("--all", help="Also those that are not ready, with what they wait for.")
    ] = False,
    coming: Annotated[
        bool, typer.Option("--coming", help="How many are ready in each of the next 12 weeks.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List the pups that are ready for sale by age, disc width and the other gates."""
    from colony.acts.pups.ready import count_by_week, ready_pups
    from colony.planning.pups.readiness import grouped

    age_days = parse_span_days(min_age) if min_age else None
    group = parse_word(by, READY_GROUPS, "group") if by else None
    with reading(book) as session:
        pups = ready_pups(
            session,
            min_age_days=age_days,
            min_width_mm=parse_length_mm(min_width, units_now().length) if min_width else None,
            species=species,
            everybody=all_ or coming,
            today=today(),
        )
    if coming:
        weeks = count_by_week(pups, today=today())
        show_json(weeks) if as_json else _show_weeks(weeks)
    elif group:
        groups = grouped(pups, group)
        show_json(groups) if as_json else _show_groups(groups, group)
    else:
        show_json(pups) if as_json else _show_pups(pups[: limit or None])
        if limit and len(pups) > limit and not as_json:
            say(f"and {len(pups) - limit} more: --limit 0 shows all.")


@app.command("forecast")
def forecast(
    tag: Annotated[
        str | None,
        typer.Argument(
            help="The animal's tag; without one: the pups off their curve.",
            autocompletion=complete_tag,
        ),
    ] = None,
    weeks: Annotated[int, typer.Option(help="How far to look.", min=1, max=260)] = 26,
    file: Annotated[
        Path | None, typer.Option("-o", "--output", help="Also draw the curve: FILE.svg.")
    ] = None,
    book: Book = None,
    *,
    yes: Yes = False,
    as_json: AsJson = False,
) -> None:
    """Draw how an animal will grow, with its 80 % interval; without a tag, call out who is off."""
    if tag is None:
        _show_off_curves(book, as_json=as_json)
        return
    from colony.acts.pups.forecast import draw_forecast, forecast_pup
    from colony.papers.growth.text import growth_text

    with reading(book) as session:
        ahead, picture = forecast_pup(session, tag=tag, weeks=weeks, today=today())
    if file:
        draw_forecast(picture, path=file, overwrite=yes)
    if as_json:
        show_json(ahead)
        return
    say(growth_text(picture).rstrip("\n"))
    last = ahead.forecast[-1]
    low, likely, high = (show_length(last[n]) for n in ("low_mm", "disc_width_mm", "high_mm"))
    say(f"{ahead.tag} on {last['on']}: {likely}, between {low} and {high} in 4 of 5 cases.")
    if ahead.expected_ready:
        say(f"Ready {_between(ahead.expected_ready, ahead.ready_low, ahead.ready_high)}.")
    warn(f"{sentence}." for sentence in ahead.off_curve)
    if file:
        say(f"The curve is drawn in {file}.")


def _show_off_curves(book: str | None, *, as_json: bool) -> None:
    from colony.acts.pups.forecast import off_curves

    with reading(book) as session:
        off: Sequence[OffCurve] = off_curves(session, today=today())
    if as_json:
        show_json(off)
        return
    show_table(
        ("Pup", "Is", "What was seen"),
        ((pup.tag, pup.kind, pup.sentence) for pup in off),
        none="Every pup is on its curve.",
    )


def _show_pups(pups: "Sequence[Readiness]") -> None:
    show_table(
        ("Pup", "Sex", "Species", ">Age", ">Width", "Tank", "Ready", "Waits for"),
        (
            (
                p.tag,
                p.sex,
                p.species or None,
                None if p.age_days is None else show_span(p.age_days),
                show_length(p.disc_width_mm),
                p.tank or None,
                "now" if p.ready else _between(p.expected_ready, p.ready_low, p.ready_high),
                _lacks(p),
            )
            for p in pups
        ),
        none="No pup is ready by these gates; --all shows what each waits for.",
    )


def _lacks(pup: "Readiness") -> str | None:
    """What a pup waits on, and for whom it is kept."""
    for_whom = f"reserved for {pup.reserved_for}"
    words = [for_whom if word == "reserved" and pup.reserved_for else word for word in pup.lacks]
    return ", ".join(words) or None


def _show_groups(groups: "dict[str, list[Readiness]]", group: str) -> None:
    if not groups:
        _show_pups(())
    for number, (name, pups) in enumerate(groups.items()):
        ready_now = sum(p.ready for p in pups)
        gap = "\n" if number else ""
        say(f"{gap}{group.capitalize()} {name or 'unknown'}: {ready_now} of {len(pups)} ready")
        _show_pups(pups)


def _show_weeks(weeks: "Sequence[ReadyWeek]") -> None:
    show_table(
        ("Week of", ">Ready", "Of them"),
        (
            (
                week.begins,
                week.pups,
                ", ".join(
                    f"{count.pups} {count.species} {count.sex}".strip() for count in week.counts
                ),
            )
            for week in weeks
        ),
    )


def _between(likely: object, low: object, high: object) -> str | None:
    if likely is None:
        return None
    return f"{likely}" if low == high else f"{likely} ({low} to {high or 'never'})"
