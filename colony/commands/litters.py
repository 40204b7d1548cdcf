"""`colony litter`: record a birth, see who is due."""

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.fields import Typed, read_typed, with_options
from colony.commands.cli.opened import acting, insisting, reading
from colony.commands.cli.options import LARGEST, Anyway, Book
from colony.commands.cli.output import say, show_json, show_table, warn
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import day, day_or_none, today
from colony.notation.cautions import CAUTIONS
from colony.notation.fields.facts import LitterFacts
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.litters import BIRTH_FACTS, LITTER_FACTS
from colony.notation.house import show_length
from colony.notation.pups import parse_pups

MOST_CONFLICTS = 8
"""Nurseries that are wanted twice are named one by one up to this: a house short of them has many."""

if TYPE_CHECKING:
    from colony.acts.litters.record import LitterRecorded

app = subject()

Litter = Annotated[str, typer.Argument(help="The litter's code, such as 26-01.")]


@app.command("record")
@with_options((*BIRTH_FACTS, ANYWAY_WHY))
def record(
    dam: Annotated[str, typer.Option(help="The dam's tag.", autocompletion=complete_tag)],
    pups: Annotated[str, typer.Option(help="Live pups by sex: 2F3M1U; 0 if none lived.")],
    typed: Typed,
    born: Annotated[str, typer.Option(help="Day of birth.")] = "today",
    tank: Annotated[
        str | None, typer.Option(help="Where the pups swim; without: where she is.")
    ] = None,
    book: Book = None,
    *,
    anyway: Anyway = False,
    as_json: AsJson = False,
) -> None:
    """Record a birth: the litter, a pup for each live young, and where they now swim."""
    from colony.acts.litters.record import record_litter

    count, facts, on = parse_pups(pups), read_typed((*BIRTH_FACTS, ANYWAY_WHY), typed), day(born)

    def write(sure: bool) -> "LitterRecorded":
        with acting(book, "litter record") as session:
            return record_litter(
                session,
                dam=dam,
                born=on,
                pups=count,
                tank=tank,
                anyway=sure,
                ask=sys.stdin.isatty(),
                today=today(),
                **facts,
            )

    recorded = insisting(write, anyway=anyway)
    if as_json:
        show_json(recorded)
        return
    young = ", ".join(recorded.pups) or "no live pup"
    say(
        f"Litter {recorded.litter} of {recorded.dam}: {young}{f' in {recorded.tank}' if recorded.tank else ''}."
    )
    say(f"Sire {' or '.join(recorded.sire_shares)}. {_inbreeding_told(recorded)}")
    warn(recorded.warnings)
    if recorded.pups:
        say(CAUTIONS["litter record"])


@app.command("edit")
@with_options(LITTER_FACTS)
def edit(litter: Litter, typed: Typed, book: Book = None) -> None:
    """Correct a litter: a wrong sire, day or count of dead; everything computed follows."""
    from colony.acts.litters.edit import edit_litter

    corrections = LitterFacts(**read_typed(LITTER_FACTS, typed))
    with acting(book, "litter edit") as session:
        mended = edit_litter(session, code=litter, corrections=corrections, today=today())
    say(f"Litter {mended.litter} is corrected.")
    warn(mended.warnings)


@app.command("list")
def list_(
    dam: Annotated[
        str | None, typer.Option(help="Only of this dam.", autocompletion=complete_tag)
    ] = None,
    since: Annotated[str | None, typer.Option(help="Only born since that day.")] = None,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0, max=LARGEST)] = 50,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List litters, the youngest first."""
    from colony.acts.litters.listing import list_litters

    with reading(book) as session:
        lines = list_litters(session, dam=dam, since=day_or_none(since))
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Litter", "Born", "Dam", "Sires", ">Live", ">Dead", ">Here", "Tank"),
        (
            (
                line.litter,
                line.born,
                line.dam,
                " ".join(line.sires) or None,
                line.live,
                line.dead,
                line.present,
                line.tank,
            )
            for line in lines[: limit or None]
        ),
        none="No litter is in the book like that.",
    )


@app.command("show")
def show(litter: Litter, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show one litter with its pups and their inbreeding."""
    from colony.acts.litters.listing import show_litter

    with reading(book) as session:
        page = show_litter(session, code=litter, today=today())
    if as_json:
        show_json(page)
        return
    say(f"Litter {page.litter}, born {page.born}: {page.live} live, {page.dead} dead.")
    may = " (pups may differ)" if page.pups_may_differ else ""
    say(
        f"Dam {page.dam}, sire {' or '.join(page.sires) or 'unknown'}{may}. {_inbreeding_told(page)}"
    )
    show_table(
        ("Pup", "Sex", "Status", "Tank", ">Width"),
        ((p.tag, p.sex, p.status, p.tank, show_length(p.disc_width_mm)) for p in page.pups),
        none="No pup of it is in the book.",
    )


@app.command("due")
def due(book: Book = None, *, as_json: AsJson = False) -> None:
    """Who is due, by when to set up the nursery, and in which tank."""
    from colony.acts.litters.due import due_litters

    with reading(book) as session:
        lines = due_litters(session, today=today())
    if as_json:
        show_json(lines)
        return
    show_table(
        ("Dam", "Sires", "Earliest", "Likely", "Latest", "Nursery by", "In", "State"),
        (
            (
                d.dam,
                " ".join(d.sires) or None,
                d.earliest,
                d.likely,
                d.latest,
                d.nursery if d.nursery_tank else None,
                d.nursery_tank,
                d.state,
            )
            for d in lines
        ),
        none="Nobody is due: no mating sign, pairing or finding says so.",
    )
    conflicts = list(dict.fromkeys(warning for d in lines for warning in d.warnings))
    warn(f"{warning}." for warning in conflicts[:MOST_CONFLICTS])
    if len(conflicts) > MOST_CONFLICTS:
        warn([f"{len(conflicts) - MOST_CONFLICTS} more like that: --json names each."])


@app.command("prepare")
def prepare(
    dam: Annotated[str, typer.Argument(help="The dam's tag.", autocompletion=complete_tag)],
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Prepare a birth: when to part her, into which tank, and what must stand by when."""
    from colony.acts.litters.prepare import prepare_birth

    with reading(book) as session:
        plan = prepare_birth(session, dam=dam, today=today())
    if as_json:
        show_json(plan)
        return
    say(f"{plan.dam} is {plan.state}: due {plan.earliest} to {plan.latest}, likely {plan.likely}.")
    show_table(
        ("By", "What"),
        ((step.by, f"{step.what}{' (late)' if step.late else ''}") for step in plan.steps),
    )
    if plan.tank is None:
        warn([f"No tank takes her and up to {plan.pups} pups as the house stands."])
    show_table(
        ("Not in", "Role", "Why"),
        ((t.tank, t.role, t.against[0]) for t in plan.others[:MOST_CONFLICTS]),
    )
    say(CAUTIONS["pairing end"])


def _inbreeding_told(kin: object) -> str:
    """F of the pups with its range where sires are in doubt, and how complete the pedigree is."""
    f, low, high, known = (
        getattr(kin, name)
        for name in ("inbreeding", "inbreeding_low", "inbreeding_high", "completeness")
    )
    span = f" ({low:.4f} to {high:.4f})" if high - low > 1e-9 else ""  # noqa: PLR2004 - rounding
    return f"F of the pups {f:.4f}{span}, from {known:.1f} known generations."
