"""`colony pairing`: who is with whom, and who should be."""

from typing import Annotated

import typer

from colony.commands.cli.fields import Typed, argument, read_typed, with_options
from colony.commands.cli.opened import acting, reading
from colony.commands.cli.options import LARGEST, Anyway, Book, On, Tag
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, today
from colony.notation.cautions import CAUTIONS
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.pairings import (
    DAM,
    FINDING_FACTS,
    KEPT_WITH,
    KIND,
    PAIRING_FACTS,
    SIGN_FACTS,
)
from colony.notation.words import MATING_SIGNS

app = subject()

SIGN_OPTIONS = tuple(field for field in SIGN_FACTS if field != KIND)

Dam = Annotated[str, argument(DAM)]


@app.command("pick")
def pick(
    tag: Tag,
    limit: Annotated[
        int, typer.Option(help="Partners to print; 0 for all.", min=0, max=LARGEST)
    ] = 15,
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
@with_options((*PAIRING_FACTS, ANYWAY_WHY))
def start(
    dam: Dam,
    sires: Annotated[list[str], argument(KEPT_WITH)],
    typed: Typed,
    on: On = "today",
    book: Book = None,
    *,
    anyway: Anyway = False,
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
            anyway=anyway,
            today=today(),
            **read_typed((*PAIRING_FACTS, ANYWAY_WHY), typed),
        )
    if as_json:
        show_json(paired)
        return
    say(
        f"{paired.dam} {'is to be' if paired.planned else 'is'} with {' and '.join(paired.sires)} "
        f"since {paired.started}; F of pups {paired.inbreeding:.4f}."
    )
    warn(paired.warnings)
    say(CAUTIONS["pairing start"])


@app.command("end")
def end(dam: Dam, on: On = "today", book: Book = None) -> None:
    """Write down that a dam was separated from her sires."""
    from colony.acts.pairings.pairings import end_pairing

    with acting(book, "pairing end") as session:
        end_pairing(session, dam=dam, on=day(on), today=today())
    say(f"{dam} is separated. {CAUTIONS['pairing end']}")


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
        lines = list_pairings(session, all_=all_, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Dam", "Sires", "State", "From", "To", "Tank", "Last sign"),
        (
            (
                p.dam,
                " ".join(p.sires),
                p.state,
                p.started,
                p.ended,
                p.tank,
                p.signs[-1] if p.signs else None,
            )
            for p in lines
        ),
        none="No pairing runs.",
    )


@app.command("sign")
@with_options(SIGN_OPTIONS, new=True)
def sign(
    dam: Dam,
    typed: Typed,
    kind: Annotated[str, argument(KIND)] = MATING_SIGNS[0],
    book: Book = None,
) -> None:
    """Note a mating sign; the due window starts from it."""
    from colony.acts.pairings.pairings import note_sign

    facts = read_typed(SIGN_FACTS, {KIND.name: kind, **typed}, new=True)
    with acting(book, "pairing sign") as session:
        note_sign(session, dam=dam, **facts, today=today())
    say(f"{dam}: {facts['kind']} noted.")


@app.command("check")
@with_options(FINDING_FACTS, new=True)
def check(dam: Dam, typed: Typed, book: Book = None) -> None:
    """Note what was found of a female. "Nothing seen" never means "not pregnant"."""
    from colony.acts.pairings.pairings import note_finding

    facts = read_typed(FINDING_FACTS, typed, new=True)
    with acting(book, "pairing check") as session:
        note_finding(session, dam=dam, **facts, today=today())
    say(f"{dam}: {facts['finding']} noted.")
    if facts["finding"] == "nothing seen":
        say("That is no proof: a pregnant ray may show nothing.")
