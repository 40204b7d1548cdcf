"""`colony pairing`: who is with whom, and who should be."""

from typing import Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.fields import Typed, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import AsJson, Book, On, Tag, subject
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.read import day, today
from colony.notation.fields.pairings import PAIRING_FACTS
from colony.notation.tags import parse_text
from colony.notation.words import FINDINGS, MATING_SIGNS, METHODS, parse_word

app = subject()


Dam = Annotated[str, typer.Argument(help="The dam's tag.", autocompletion=complete_tag)]
Note = Annotated[str | None, typer.Option(help="A note.")]


@app.command("pick")
def pick(
    tag: Tag,
    limit: Annotated[int, typer.Option(help="Partners to print; 0 for all.", min=0)] = 15,
    ignore: Annotated[
        list[str] | None, typer.Option(help="A rule to override, by its name; repeat for several.")
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Rank the partners of an animal, least related first, and say why others are left out."""
    from colony.acts.pairings.partners import pick_partners

    with reading(book) as session:
        picked = pick_partners(session, tag=tag, overridden=frozenset(ignore or ()), today=today())
    if as_json:
        show_json(picked)
        return
    if picked.cautions:
        say(f"{picked.tag} itself: {'; '.join(picked.cautions)}.")
    ranked = picked.partners[: limit or None]
    head = ["Partner", ">F of pups", ">Mean kinship", "Tank"]
    lines = [[p.tag, p.expected_inbreeding, p.mean_kinship, p.tank] for p in ranked]
    if any(p.reasons for p in ranked):
        head.append("Although")
        lines = [[*line, "; ".join(p.reasons)] for line, p in zip(lines, ranked, strict=True)]
    show_table(head, lines, none=f"Nobody can be paired with {picked.tag} now.")
    show_table(
        ("Left out", "Why"),
        ((animal.tag, "; ".join(animal.reasons)) for animal in picked.left_out[: limit or None]),
    )
    if limit and len(picked.left_out) > limit:
        say(f"and {len(picked.left_out) - limit} more left out: --limit 0 shows all.")


@app.command("start")
@with_options(PAIRING_FACTS)
def start(
    dam: Dam,
    sires: Annotated[
        list[str], typer.Argument(help="Tags of her sires.", autocompletion=complete_tag)
    ],
    typed: Typed,
    on: On = "today",
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Write down that a dam is kept with one or several sires."""
    from colony.acts.pairings.pairings import start_pairing

    with acting(book, "pairing start") as session:
        paired = start_pairing(
            session,
            dam=dam,
            sires=sires,
            on=day(on),
            today=today(),
            **read_typed(PAIRING_FACTS, typed),
        )
    if as_json:
        show_json(paired)
        return
    say(
        f"{paired.dam} is with {' and '.join(paired.sires)} since {paired.started}; F of pups {paired.inbreeding:.4f}."
    )
    say("Adults: two people, a rigid container, and mind the tail.")


@app.command("end")
def end(dam: Dam, on: On = "today", book: Book = None) -> None:
    """Write down that a dam was separated from her sires."""
    from colony.acts.pairings.pairings import end_pairing

    with acting(book, "pairing end") as session:
        end_pairing(session, dam=dam, on=day(on), today=today())
    say(f"{dam} is separated.")


@app.command("list")
def list_(
    book: Book = None,
    *,
    all_: Annotated[bool, typer.Option("--all", help="Also those that have ended.")] = False,
    as_json: AsJson = False,
) -> None:
    """List the pairings that run, the newest first."""
    from colony.acts.pairings.listing import list_pairings

    with reading(book) as session:
        lines = list_pairings(session, all_=all_)
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Dam", "Sires", "From", "To", "Tank", "Last sign"),
        (
            (p.dam, " ".join(p.sires), p.started, p.ended, p.tank, p.signs[-1] if p.signs else None)
            for p in lines
        ),
        none="No pairing runs.",
    )


@app.command("sign")
def sign(
    dam: Dam,
    kind: Annotated[
        str, typer.Argument(help="bite marks, copulation or courtship.")
    ] = "bite marks",
    on: On = "today",
    sire: Annotated[
        str | None, typer.Option(help="Which male, if seen.", autocompletion=complete_tag)
    ] = None,
    note: Note = None,
    book: Book = None,
) -> None:
    """Note a mating sign; the due window starts from it."""
    from colony.acts.pairings.pairings import note_sign

    word = parse_word(kind, MATING_SIGNS, "mating sign")
    with acting(book, "pairing sign") as session:
        note_sign(
            session,
            dam=dam,
            kind=word,
            on=day(on),
            sire=sire,
            note=parse_text(note, "note") if note else None,
            today=today(),
        )
    say(f"{dam}: {word} noted.")


@app.command("check")
def check(
    dam: Dam,
    found: Annotated[
        str, typer.Option(help="pregnant, nothing seen, unsure, false alarm or aborted.")
    ],
    method: Annotated[
        str, typer.Option(help="look, ultrasound, palpation by vet or other.")
    ] = "look",
    on: On = "today",
    note: Note = None,
    book: Book = None,
) -> None:
    """Note what was found of a female. "Nothing seen" never means "not pregnant"."""
    from colony.acts.pairings.pairings import note_finding

    word = parse_word(found, FINDINGS, "finding")
    with acting(book, "pairing check") as session:
        note_finding(
            session,
            dam=dam,
            finding=word,
            method=parse_word(method, METHODS, "method"),
            on=day(on),
            note=parse_text(note, "note") if note else None,
            today=today(),
        )
    say(f"{dam}: {word} noted.")
    if word == "nothing seen":
        say("That is no proof: a pregnant ray may show nothing.")
