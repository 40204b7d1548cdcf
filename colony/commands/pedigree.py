"""`colony pedigree`: inbreeding and kinship."""

import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.opened import reading
from colony.commands.cli.options import LARGEST, Book, Tag, Yes
from colony.commands.cli.output import say, show_json, show_table
from colony.commands.cli.parts import AsJson, subject
from colony.commands.cli.read import today
from colony.notation.cautions import GENERATIONS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from colony.acts.pedigree.founders import FounderPage

app = subject()


@app.command("inbreeding")
def inbreeding(
    tags: Annotated[
        list[str] | None,
        typer.Argument(help="Tags; without: everybody present.", autocompletion=complete_tag),
    ] = None,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show F with its range where sires are in doubt, and how complete the pedigree is."""
    from colony.acts.pedigree.kinship import inbreeding_of

    with reading(book) as session:
        found = inbreeding_of(session, tags=tags or ())
    if as_json:
        show_json(found)
        return
    show_table(
        ("Animal", ">F", ">Least", ">Greatest", ">Known generations"),
        (
            (line.tag, line.inbreeding, line.low, line.high, f"{line.completeness:.2f}")
            for line in found
        ),
        none="Nobody is in the book.",
    )


@app.command("kinship")
def kinship(tag: Tag, other: Tag, book: Book = None, *, as_json: AsJson = False) -> None:
    """Show the kinship of two animals: F of the pups the two would have."""
    from colony.acts.pedigree.kinship import kinship_of

    with reading(book) as session:
        found = kinship_of(session, one=tag, other=other)
    if as_json:
        show_json(found)
    else:
        say(f"Kinship of {found.tags[0]} and {found.tags[1]}: {found.kinship:.4f}.")


@app.command("why")
def why(
    tag: Tag,
    other: Annotated[
        str | None,
        typer.Argument(help="A second animal: explain their kinship.", autocompletion=complete_tag),
    ] = None,
    limit: Annotated[int, typer.Option(help="Paths to print; 0 for all.", min=0, max=LARGEST)] = 40,
    book: Book = None,
    *,
    drawn: Annotated[bool, typer.Option("--drawn", help="Draw the paths too.")] = False,
    as_json: AsJson = False,
) -> None:
    """Explain F of an animal, or the kinship of two: every path, and what each adds."""
    from colony.acts.pedigree.paths import draw_paths, explain

    with reading(book) as session:
        found = explain(session, tag=tag, other=other)
        columns = shutil.get_terminal_size().columns
        drawing = draw_paths(session, tag=tag, other=other, width=columns) if drawn else []
    if as_json:
        show_json(found)
        return
    figure = "F of" if len(found.tags) == 1 else "Kinship of"
    say(f"{figure} {' and '.join(found.tags)}: {found.inbreeding:.6g}")
    show_table(
        (">Adds", "Path, by the common ancestor in brackets"),
        (
            (
                f"{p.adds:.6g}",
                " - ".join(f"[{name}]" if name == p.ancestor else name for name in p.path),
            )
            for p in found.paths[: limit or None]
        ),
    )
    if limit and len(found.paths) > limit:
        say(f"and {len(found.paths) - limit} more paths: --limit 0 shows all.")
    if drawing:
        say("\n".join(drawing))
    show_table(
        ("Common ancestor", ">Paths", ">Add together"),
        ((a.ancestor, a.paths, f"{a.adds:.6g}") for a in found.ancestors),
        none="They have no common ancestor on record.",
    )


@app.command("chart")
def chart(
    tag: Tag,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", help="FILE.svg, .png or .pdf; without: here.")
    ] = None,
    up: Annotated[int, typer.Option(help="Generations of ancestors.", min=0, max=12)] = 3,
    down: Annotated[int, typer.Option(help="Generations of descendants.", min=0, max=6)] = 1,
    book: Book = None,
    *,
    yes: Yes = False,
) -> None:
    """Draw the pedigree of an animal in the standard symbols of human genetics."""
    from colony.acts.pedigree.chart import Generations, chart_in_lines, write_chart

    generations = Generations(up, down)
    with reading(book) as session:
        if output is None:
            columns = shutil.get_terminal_size().columns
            lines = chart_in_lines(session, tag=tag, generations=generations, width=columns)
            say("\n".join(lines))
        else:
            write_chart(session, tag=tag, path=output, generations=generations, overwrite=yes)
            say(f"The pedigree of {tag} is in {output}.")


@app.command("founders")
def founders(
    species: Annotated[str | None, typer.Option(help="Only this species.")] = None,
    drops: Annotated[
        int, typer.Option(help="Drop genes down the pedigree so often.", min=0, max=1_000_000)
    ] = 0,
    seed: Annotated[int, typer.Option(help="Seed of the drops.", min=0, max=LARGEST)] = 0,
    limit: Annotated[int, typer.Option(help="Rows to print; 0 for all.", min=0, max=LARGEST)] = 20,
    book: Book = None,
    *,
    as_json: AsJson = False,
) -> None:
    """Show what the founders left in the colony, and what each animal is worth to it."""
    from colony.acts.pedigree.founders import founder_page

    with reading(book) as session:
        page = founder_page(session, species=species, drops=drops, seed=seed, today=today())
    if as_json:
        show_json(page)
        return
    show_table(
        ("Species", ">Living", ">Founders", ">Effective", ">Mean kinship", ">Gene diversity"),
        (
            (
                name or "none, or a cross",
                sums.living,
                sums.founders,
                f"{sums.effective_founders:.2f}",
                sums.mean_kinship,
                sums.gene_diversity,
            )
            for name, sums in page.by_species.items()
        ),
    )
    if len(page.by_species) > 1:
        say("Pooled over species, which breed apart; --species shows one alone:")
    show_table(("Figure", ">"), _figures(page))
    show_table(
        ("Founder", ">Of the colony", ">Still there", ">+-", "Held most by"),
        (
            (f.tag, f"{f.part:.1%}", f.retained, f.retained_error, _held(f.holders))
            for f in page.founders[: limit or None]
        ),
    )
    ahead = sorted(page.breeders, key=lambda b: (b.young > 0, -b.held, b.tag))
    for heading, some in (
        (
            "No young of theirs is here: what they hold goes with them",
            [b for b in ahead if not b.young],
        ),
        ("They have young here", [b for b in ahead if b.young]),
    ):
        if some:
            say(f"{heading}:")
            show_table(
                (
                    "Animal",
                    "Sex",
                    "Species",
                    "Holds of what is left of",
                    ">Young here",
                    "Generation",
                ),
                (
                    (
                        b.tag,
                        b.sex,
                        _kinds(b.species),
                        _held(b.holds[:MOST_NAMED]) or "nothing that others lack",
                        b.young,
                        f"{b.generation} ({b.source_codes})" if b.source_codes else b.generation,
                    )
                    for b in some[: limit or None]
                ),
            )
    say(GENERATIONS)


MOST_NAMED = 2
"""So many founders are named of whom an animal holds most."""


def _held(parts: "Sequence[tuple[str, float]]") -> str:
    return ", ".join(f"{tag} {part:.0%}" for tag, part in parts)


def _kinds(shares: dict[str, float]) -> str:
    return " + ".join(
        name if share == 1 else f"{share:.3g} {name}" for name, share in shares.items()
    )


def _figures(page: "FounderPage") -> list[tuple[str, object]]:
    sums = page.diversity
    figures: list[tuple[str, object]] = [
        ("living", sums.living),
        ("founders", sums.founders),
        ("effective founders", f"{sums.effective_founders:.2f}"),
        ("effective ancestors", f"{sums.effective_ancestors:.2f}"),
        ("founder genome equivalents", f"{sums.founder_genome_equivalents:.2f}"),
        ("mean kinship", sums.mean_kinship),
        ("gene diversity", sums.gene_diversity),
        ("effective size, from sexes of breeders", f"{page.size_from_sexes:.1f}"),
    ]
    if page.size_from_inbreeding.size is not None:
        error = page.size_from_inbreeding.standard_error or 0.0
        size = f"{page.size_from_inbreeding.size:.1f} +- {error:.1f}"
        figures.append(("effective size, from rate of inbreeding", size))
    if page.gene_drop:
        left, kept = page.gene_drop["gene_diversity"], page.gene_drop["founder_genomes_surviving"]
        figures += [
            ("gene diversity, dropped", f"{left.value:.4f} +- {left.standard_error:.4f}"),
            ("founder genomes surviving", f"{kept.value:.2f} +- {kept.standard_error:.2f}"),
        ]
    return figures
