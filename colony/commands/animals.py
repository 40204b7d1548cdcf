"""`colony animal`: who is who."""

from typing import Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import acting, length_unit, reading
from colony.commands.cli.options import AsJson, Book, On, Tag, subject
from colony.commands.cli.output import say, show_facts, show_json, show_table, warn
from colony.commands.cli.read import day, day_or_none, known_day, today
from colony.notation.measures import parse_length_mm, show_length
from colony.notation.shares import parse_sires
from colony.notation.tags import parse_tag, parse_text
from colony.notation.transponders import parse_transponder
from colony.notation.words import ENDS, ORIGINS, SEXES, STATUSES, parse_word

app = subject("Who is who: add, show, list, edit, hold and end animals.")

_SIRE_HELP = "A possible sire, TAG or TAG=SHARE; repeat for several ('unknown' is one too)."

Species = Annotated[str | None, typer.Option(help="Species: a short or scientific name.")]
Sex = Annotated[str | None, typer.Option(help="F, M or U (unknown).")]
Born = Annotated[str | None, typer.Option(help="Birth: 2026-03-09, 2026-03 or 2026.")]
Dam = Annotated[str | None, typer.Option(help="The dam's tag.", autocompletion=complete_tag)]
Sires = Annotated[
    list[str] | None, typer.Option("--sire", help=_SIRE_HELP, autocompletion=complete_tag)
]
Name = Annotated[str | None, typer.Option(help="A longer name.")]
Line = Annotated[str | None, typer.Option(help="Your own name for a strain.")]
Origin = Annotated[str | None, typer.Option(help="born here, bred elsewhere, wild or unknown.")]
Arrived = Annotated[str | None, typer.Option(help="The day it came.")]
From = Annotated[str | None, typer.Option("--from", help="From whom it came.")]
Transponder = Annotated[str | None, typer.Option(help="ISO 11784 number, 15 digits.")]
Note = Annotated[str | None, typer.Option(help="A note.")]


@app.command("add")
def add(
    tag: Annotated[str, typer.Argument(help="A new tag.")],
    species: Species = None,
    sex: Sex = None,
    born: Born = None,
    dam: Dam = None,
    sire: Sires = None,
    name: Name = None,
    line: Line = None,
    origin: Origin = None,
    arrived: Arrived = None,
    came_from: From = None,
    transponder: Transponder = None,
    tank: Annotated[str | None, typer.Option(help="The tank it is in.")] = None,
    width: Annotated[str | None, typer.Option(help="Disc width: 12.5cm, 5in.")] = None,
    note: Note = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down an animal that was not born in a litter of this book."""
    from colony.acts.animals.animals import AnimalFacts, add_animal
    from colony.acts.animals.page import show_animal

    facts = AnimalFacts(
        name=_text(name, "name"),
        species=species,
        sex=parse_word(sex, SEXES, "sex") if sex else None,
        born=known_day(born),
        origin=parse_word(origin, ORIGINS, "origin") if origin else None,
        arrived=day_or_none(arrived),
        arrived_from=_text(came_from, "seller"),
        line=_text(line, "line"),
        transponder=parse_transponder(transponder) if transponder else None,
        note=_text(note, "note"),
        dam=dam,
        sires=parse_sires(sire or []),
    )
    new_tag = parse_tag(tag)
    with acting(book, "animal add", begin=True) as session:
        width_mm = parse_length_mm(width, length_unit(session)) if width else None
        add_animal(session, tag=new_tag, facts=facts, tank=tank, width_mm=width_mm, today=today())
        page = show_animal(session, tag=new_tag, today=today())
    if as_json:
        show_json(page)
    else:
        say(f"{page.tag} is in the book.")


@app.command("edit")
def edit(
    tag: Tag,
    new_tag: Annotated[str | None, typer.Option("--tag", help="A new tag.")] = None,
    species: Species = None,
    sex: Sex = None,
    born: Born = None,
    dam: Dam = None,
    sire: Sires = None,
    name: Name = None,
    line: Line = None,
    origin: Origin = None,
    arrived: Arrived = None,
    came_from: From = None,
    transponder: Transponder = None,
    reserved_for: Annotated[
        str | None, typer.Option(help="Reserved for whom; '' frees it.")
    ] = None,
    no_breeding: Annotated[
        str | None, typer.Option(help="Why it must not breed; '' lifts the ban.")
    ] = None,
    mature_since: Annotated[
        str | None, typer.Option(help="The day its own maturity was seen (claspers, eggs).")
    ] = None,
    note: Note = None,
    book: Book = None,
    *,
    hold_back: Annotated[
        bool | None, typer.Option("--hold-back/--for-sale", help="Keep as a future breeder.")
    ] = None,
    back: Annotated[bool, typer.Option("--back", help="Take back its end: it is here.")] = False,
) -> None:
    """Mend what is known of an animal; '' clears a text. A sire for a pup is a test result."""
    from colony.acts.animals.animals import AnimalFacts, bring_back, edit_animal

    facts = AnimalFacts(
        tag=parse_tag(new_tag) if new_tag else None,
        name=_text(name, "name"),
        species=species,
        sex=parse_word(sex, SEXES, "sex") if sex else None,
        born=known_day(born),
        origin=parse_word(origin, ORIGINS, "origin") if origin else None,
        arrived=day_or_none(arrived),
        arrived_from=_text(came_from, "seller"),
        line=_text(line, "line"),
        transponder=parse_transponder(transponder) if transponder else transponder,
        held_back=hold_back,
        reserved_for=_text(reserved_for, "buyer"),
        breeding_ban=_text(no_breeding, "reason"),
        mature_since=day_or_none(mature_since),
        note=_text(note, "note"),
        dam=dam,
        sires=parse_sires(sire or []),
    )
    with acting(book, "animal edit") as session:
        if back:
            bring_back(session, tag=tag)
        if facts != AnimalFacts() or not back:
            edit_animal(session, tag=tag, facts=facts, today=today())
    say(f"{new_tag or tag} is mended.")


@app.command("end")
def end(
    tag: Tag,
    how: Annotated[str, typer.Argument(help="died, sold or gone.")],
    on: On = "today",
    why: Annotated[str | None, typer.Option(help="To whom, or of what.")] = None,
    book: Book = None,
) -> None:
    """Write down that an animal died, was sold or is gone; it leaves its tank and pairings."""
    from colony.acts.animals.animals import end_animal

    word = parse_word(how, ENDS, "end")
    with acting(book, "animal end") as session:
        ended = end_animal(
            session, tag=tag, how=word, on=day(on), why=_text(why, "reason"), today=today()
        )
        tag, ended_on = ended.tag, ended.ended_on
    say(f"{tag}: {word} on {ended_on}.")
    if word == "died":
        warn(["A dead ray still stings, and so does a shed sting: handle it with a tool."])


@app.command("hold")
def hold(
    tag: Tag,
    why: Annotated[str, typer.Option(help="What was seen.")],
    on: On = "today",
    book: Book = None,
) -> None:
    """Hold an animal for its health: it is not bred, sold or shown as ready."""
    from colony.acts.health.holds import hold as hold_animal

    with acting(book, "animal hold") as session:
        hold_animal(session, tag=tag, why=parse_text(why, "reason"), on=day(on), today=today())
    say(f"{tag} is held. Medicines and doses are for a licensed vet.")


@app.command("release")
def release(tag: Tag, on: On = "today", book: Book = None) -> None:
    """End the health hold of an animal."""
    from colony.acts.health.holds import release as release_animal

    with acting(book, "animal release") as session:
        release_animal(session, tag=tag, on=day(on), today=today())
    say(f"{tag} is released.")


@app.command("list")
def list_(
    species: Species = None,
    sex: Sex = None,
    line: Line = None,
    tank: Annotated[str | None, typer.Option(help="Only in this tank.")] = None,
    status: Annotated[str, typer.Option(help="present, sold, died, gone or all.")] = "present",
    search: Annotated[
        str | None, typer.Option(help="Part of a tag, name, species, line or parent.")
    ] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0)] = 100,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List the herd: who is here, of what age and width, where, and how inbred."""
    from colony.acts.animals.listing import AnimalFilter, list_animals

    wanted = AnimalFilter(
        status=None if status == "all" else parse_word(status, STATUSES, "status"),
        species=species,
        sex=parse_word(sex, SEXES, "sex") if sex else None,
        line=line,
        tank=tank,
        words=(search,) if search else (),
    )
    with reading(book) as session:
        unit = length_unit(session)
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
                show_length(a.disc_width_mm, unit),
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
        unit = length_unit(session)
        page = show_animal(session, tag=tag, today=today())
    if as_json:
        show_json(page)
        return
    show_facts(
        page,
        leave=("widths", "placements", "feedings", "holds", "inbreeding_low", "inbreeding_high"),
    )
    show_table(
        ("Measured", ">Width", ">Mass g", "Note"),
        (
            (one["on"], show_length(one["disc_width_mm"], unit), one["mass_g"], one["note"])
            for one in page.widths
        ),
    )
    show_table(
        ("Tank", "From", "To"),
        ((p["tank"], p["entered_on"], p["left_on"]) for p in page.placements),
    )
    show_table(("Held from", "To", "Why"), ((h["from"], h["to"], h["why"]) for h in page.holds))


def _text(text: str | None, what: str) -> str | None:
    return None if text is None else parse_text(text, what)
