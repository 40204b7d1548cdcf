"""`colony pup keep`: which pups become breeders of this house."""

from typing import Annotated

import typer

from colony.commands.cli.opened import reading
from colony.commands.cli.options import LARGEST, Book
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today

app = subject()


@app.command("keep")
def keep(
    slots: Annotated[int, typer.Option(help="How many at the most.", min=1, max=60)] = 4,
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    cost_max: Annotated[
        float | None,
        typer.Option(help="The most that may be forgone, by the price list.", min=0, max=LARGEST),
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Choose which pups to hold back as breeders: the least mean kinship of the herd to come."""
    from colony.acts.pups.keep import plan_keeping

    with reading(book) as session:
        plan = plan_keeping(session, slots=slots, species=species, cost_max=cost_max, today=today())
    if as_json:
        show_json(plan)
        return
    show_table(
        ("Keep", "Species", "Sex", ">Forgone", "Why"),
        (
            (p.tag, p.species, p.sex, "-" if p.forgone is None else f"{p.forgone:,}", p.why)
            for p in plan.keep
        ),
        none="No pup would make the herd less alike.",
    )
    means = plan.mean_kinship
    say(
        f"Mean kinship: {means.now:.4f} of those here now; of the herd to come {means.kept:.4f}, "
        f"without a pup {means.without:.4f}. "
        + ("Nothing better is there." if plan.proven else "Not proved in time.")
    )
    say("colony animal edit TAG --hold-back keeps one.")
