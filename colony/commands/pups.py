"""`colony pup`: measure, feed, and see who is ready."""

from typing import Annotated

import typer

from colony.commands.opened import acting, length_unit, reading
from colony.commands.options import AsJson, Book, On, Tag, subject
from colony.commands.output import say, show_json, show_table, warn
from colony.commands.read import day, today
from colony.notation.days import parse_span_days, show_span
from colony.notation.measures import parse_length_mm, parse_mass_g, show_length
from colony.notation.tags import parse_text

app = subject("Growing out: measure, feed, see who is ready.")


@app.command("measure")
def measure(
    tag: Tag,
    width: Annotated[str, typer.Argument(help="Disc width, tail excluded: 12.5cm, 5in.")],
    mass: Annotated[str | None, typer.Argument(help="Mass: 450g, 1.2kg.")] = None,
    on: On = "today",
    note: Annotated[str | None, typer.Option(help="A note.")] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down disc width and mass; a second time on one day mends the first."""
    from colony.acts.pups import measure as measure_pup

    mass_g = parse_mass_g(mass) if mass else None
    with acting(book, "pup measure") as session:
        unit = length_unit(session)
        measured = measure_pup(
            session,
            tag=tag,
            width_mm=parse_length_mm(width, unit),
            mass_g=mass_g,
            on=day(on),
            note=parse_text(note, "note") if note else None,
            today=today(),
        )
    if as_json:
        show_json(measured)
        return
    grown = f", {measured.growth_mm:+} mm since {measured.since}" if measured.since else ""
    say(
        f"{measured.tag}: {show_length(measured.disc_width_mm, unit)} on {measured.measured_on}{grown}."
    )
    warn(measured.warnings)


@app.command("feed")
def feed(
    tag: Tag,
    food: Annotated[str, typer.Argument(help="What it was offered: worms, prawn, ...")],
    on: On = "today",
    book: Book = None,
    *,
    refused: Annotated[bool, typer.Option("--refused", help="It did not take it.")] = False,
) -> None:
    """Write down that an animal took a food, or refused it."""
    from colony.acts.pups import feed as feed_pup

    with acting(book, "pup feed") as session:
        feed_pup(
            session,
            tag=tag,
            food=parse_text(food, "food", 40),
            took=not refused,
            on=day(on),
            today=today(),
        )
    say(f"{tag} {'refused' if refused else 'took'} {food}.")


@app.command("ready")
def ready(
    min_age: Annotated[
        str | None, typer.Option(help="Least age, such as 8w or 60d; without: the species'.")
    ] = None,
    min_width: Annotated[
        str | None, typer.Option(help="Least disc width, such as 12cm; without: the species'.")
    ] = None,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0)] = 100,
    book: Book = None,
    *,
    all_: Annotated[
        bool, typer.Option("--all", help="Also those that are not ready, with what they wait for.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """List the pups that are ready for sale by age, disc width and the other gates."""
    from colony.acts.ready import ready_pups

    age_days = parse_span_days(min_age) if min_age else None
    with reading(book) as session:
        unit = length_unit(session)
        pups = ready_pups(
            session,
            min_age_days=age_days,
            min_width_mm=parse_length_mm(min_width, unit) if min_width else None,
            species=species,
            everybody=all_,
            today=today(),
        )
    if as_json:
        show_json(pups)
        return
    show_table(
        ("Pup", "Sex", "Species", ">Age", ">Width", "Tank", "Ready", "Expected", "Waits for"),
        (
            (
                p.tag,
                p.sex,
                p.species or None,
                None if p.age_days is None else show_span(p.age_days),
                show_length(p.disc_width_mm, unit),
                p.tank or None,
                p.ready,
                None if p.ready else _expected(p),
                ", ".join(p.waiting_on) or None,
            )
            for p in pups[: limit or None]
        ),
        none="No pup is ready by these gates; --all shows what each waits for.",
    )
    if limit and len(pups) > limit:
        say(f"and {len(pups) - limit} more: --limit 0 shows all.")


def _expected(pup: object) -> str | None:
    low, likely, high = (getattr(pup, day) for day in ("ready_low", "expected_ready", "ready_high"))
    if likely is None:
        return None
    return f"{likely}" if low == high else f"{likely} ({low} to {high or 'never'})"
