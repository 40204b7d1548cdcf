"""`colony animal`: who is who."""

import sys
from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated, Any

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import LARGEST, Anyway, Book, On, Tag, Yes
from colony.commands.cli.output import say, show_facts, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.notation.cautions import CAUTIONS, DEAD_RAY, LOCAL_CODES
from colony.notation.fields.animals import (
    ADDED_WITH,
    ANIMAL_FACTS,
    END_FACTS,
    ENDED,
    HOW_ENDED,
    TAG,
)
from colony.notation.fields.facts import AnimalFacts
from colony.notation.fields.health import ANYWAY_WHY, HOLD_FACTS
from colony.notation.house import show_length, show_mass
from colony.notation.tags import parse_tag, printable
from colony.notation.words import STATUSES, parse_word

if TYPE_CHECKING:
    from sqlmodel import Session

app = subject()

ADDED = tuple(field for field in ANIMAL_FACTS if field != TAG)
FILTERED = tuple(field for field in ANIMAL_FACTS if field.name in {"species", "sex", "line"})


@app.command("add")
@with_options((*ADDED, *ADDED_WITH, ANYWAY_WHY), new=True)
def add(
    tag: Annotated[str, typer.Argument(help="A new tag.")],
    typed: Typed,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Write down an animal that was not born in a litter of this book."""
    from colony.acts.animals.animals import add_animal
    from colony.acts.animals.page import show_animal
    from colony.store.settings import read_settings

    facts = AnimalFacts(**read_typed(ADDED, typed))
    new_tag = parse_tag(tag)
    with acting(book, "animal add", begin=True) as session:
        beside = read_typed((*ADDED_WITH, ANYWAY_WHY), typed, read_settings(session), new=True)
        add_animal(session, tag=new_tag, facts=facts, **beside, anyway=anyway, today=today())
        page = show_animal(session, tag=new_tag, today=today())
    if as_json:
        show_json(page.document)
    else:
        say(f"{page.tag} is in the book. {CAUTIONS['animal add']}")


@app.command("edit")
@with_options(ANIMAL_FACTS)
def edit(
    tag: Tag,
    typed: Typed,
    book: Book = None,
    *,
    back: Annotated[bool, typer.Option("--back", help="Take back its end: it is here.")] = False,
) -> None:
    """Correct what is known of an animal; '' clears a text. A sire for a pup is a test result."""
    from colony.acts.animals.animals import bring_back, edit_animal

    facts = AnimalFacts(**read_typed(ANIMAL_FACTS, typed))
    with acting(book, "animal edit") as session:
        if back:
            bring_back(session, tag=tag)
        if facts or not back:
            edit_animal(session, tag=tag, facts=facts, today=today())
    say(f"{typed[TAG.name] or tag} is corrected.")


@app.command("end")
@with_options(END_FACTS, new=True)
def end(
    tags: Annotated[list[str], argument(ENDED)],
    typed: Typed,
    book: Book = None,
    *,
    anyway: Anyway = False,
    yes: Yes = False,
) -> None:
    """Write down that animals died, were sold or are gone; they leave their tanks and pairings."""
    from colony.acts.animals.search import tags_meant
    from colony.refusals.animals import EndNeedsHow

    *named, how = tags
    if not named:
        raise EndNeedsHow
    with reading(book) as session:
        ending = tags_meant(session, tags=named)
    facts = {
        **read_typed((HOW_ENDED,), {HOW_ENDED.name: how}, new=True),
        **read_typed(END_FACTS, typed, new=True),
        "anyway": anyway,
        "today": today(),
    }
    if not yes and sys.stdin.isatty():
        # A trial, which is thrown away: what cannot be written is refused before it is asked.
        with reading(book) as session:
            trial = " ".join(_end(session, tag, facts) for tag in ending)
        typer.confirm(f"{printable(trial)} Write it?", abort=True, err=True)
    with acting(book, "animal end") as session:
        lines = [_end(session, tag, facts) for tag in ending]
    for line in lines:
        say(line)
    warn([{"died": DEAD_RAY, "sold": LOCAL_CODES, "gone": LOCAL_CODES}[facts["how"]]])


@app.command("hold")
@with_options(HOLD_FACTS, new=True)
def hold(tag: Tag, typed: Typed, book: Book = None) -> None:
    """Hold an animal for its health: it is not bred, sold or shown as ready."""
    from colony.acts.health.holds import hold as hold_animal

    facts = read_typed(HOLD_FACTS, typed, new=True)
    with acting(book, "animal hold") as session:
        hold_animal(session, tag=tag, **facts, today=today())
    say(f"{tag} is held. {CAUTIONS['animal hold']}")


@app.command("release")
def release(tag: Tag, on: On = "today", book: Book = None) -> None:
    """End the health hold of an animal."""
    from colony.acts.health.holds import release as release_animal

    with acting(book, "animal release") as session:
        release_animal(session, tag=tag, on=day(on), today=today())
    say(f"{tag} is released.")


@app.command("list")
@with_options(FILTERED)
def list_(
    typed: Typed,
    tank: Annotated[str | None, typer.Option(help="Only in this tank.")] = None,
    status: Annotated[str, typer.Option(help="present, sold, died, gone or all.")] = "present",
    search: Annotated[
        str | None, typer.Option(help="Part of a tag, name, species, line or parent.")
    ] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0, max=LARGEST)] = 100,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List the herd: who is here, of what age and width, where, and how inbred."""
    from colony.acts.animals.listing import AnimalFilter, list_animals

    wanted = AnimalFilter(
        **read_typed(FILTERED, typed),
        status=None if status == "all" else parse_word(status, STATUSES, "status"),
        tank=tank,
        words=(search,) if search else (),
    )
    with reading(book) as session:
        most = None if as_json or not limit else limit
        shown, more = list_animals(session, wanted=wanted, most=most, today=today())
    if as_json:
        show_json(shown)
        return
    show_table(
        ("Tag", "Sex", "Species", "Born", ">Width", "Tank", "Dam", "Sires", ">F"),
        (
            (
                a.tag,
                a.sex,
                a.species,
                a.born,
                show_length(a.disc_width_mm),
                a.tank,
                a.dam,
                " ".join(a.sires) or None,
                a.inbreeding,
            )
            for a in shown
        ),
        none="Nobody is in the book like that.",
    )
    if more:
        say(f"and {more} more: narrow it with --search, or --limit 0 for all.")


@app.command("show")
def show(tag: Tag, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show everything on record of one animal."""
    from colony.acts.animals.page import show_animal

    with reading(book) as session:
        page = show_animal(session, tag=tag, today=today())
    if as_json:
        show_json(page.document)
        return
    show_facts(
        page.document,
        leave=(
            "widths",
            "placements",
            "feedings",
            "holds",
            "done_anyway",
            "inbreeding_low",
            "inbreeding_high",
        ),
    )
    show_table(
        ("Measured", ">Width", ">Mass", "Note"),
        (
            (
                width["on"],
                show_length(width["disc_width_mm"]),
                show_mass(width["mass_g"]),
                width["note"],
            )
            for width in page.widths
        ),
    )
    show_table(
        ("Tank", "From", "To"),
        ((p["tank"], p["entered_on"], p["left_on"]) for p in page.placements),
    )
    show_table(("Held from", "To", "Why"), ((h["from"], h["to"], h["why"]) for h in page.holds))
    show_table(
        ("Done anyway", "With", "Although", "Why"),
        ((d["on"], " ".join(d["with"]), d["what"], d["why"]) for d in page.done_anyway),
    )


def _end(session: "Session", tag: str, facts: Mapping[str, Any]) -> str:
    """End an animal; who it was, in full, so that a mistaken tag is seen."""
    from colony.acts.animals.animals import end_animal, end_in_words
    from colony.acts.animals.search import name_animal

    named = name_animal(session, tag=tag, today=facts["today"])
    ended = end_animal(session, tag=tag, **facts)
    return f"{named}: {facts['how']} {end_in_words(ended)}."
