"""What the founders left in the living colony, and what each animal is worth to it."""

from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

import numpy as np
from sqlmodel import Session, select

from colony.pedigree.founders.breeders import breeder_values
from colony.pedigree.founders.effective_size import (
    RealisedSize,
    size_from_inbreeding,
    size_from_sexes,
)
from colony.pedigree.founders.founders import Contributions, Diversity, contributions, diversity
from colony.pedigree.founders.gene_drop import GeneDrop, drop_genes
from colony.pedigree.founders.holdings import Holdings, holdings
from colony.pedigree.graph.completeness import generation_equivalents
from colony.pedigree.graph.generations import generation_numbers, generation_word
from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import FloatArray, IntArray
from colony.pedigree.graph.species import species_shares
from colony.records import Species
from colony.refusals.pedigree import NobodyLives
from colony.store.lookup import find_species
from colony.store.readers.litters.conceived import read_conceived_elsewhere
from colony.store.readers.pedigree import Lineage, read_lineage

MOST_HOLDERS = 3
"""So many holders of a founder are named."""

LEAST_HELD = 0.01
"""Less of what is left of a founder is not named; common practice, no source."""

WILD_BORN = "W or R"
"""What the young of a female that was taken pregnant are, not F1: CITES Notification 1998/14."""


@dataclass(frozen=True)
class FounderLine:
    """One founder: its part of the living, who holds most of it, and what the drops left.

    `holders` are the living that hold most of what is left, each with its part of that.
    """

    tag: str
    part: float
    holders: tuple[tuple[str, float], ...]
    retained: float | None
    retained_error: float | None


@dataclass(frozen=True)
class BreederLine:
    """One living animal: what it holds, mean kinship, value, rank, and provenance.

    `holds` are the founders of whom it holds most, each with its part of what is left in its
    species; `young` counts its own that are here.

    `source_codes` are those that the record supports for one conceived in the wild and born
    here; the permit office decides.
    """

    tag: str
    mean_kinship: float
    value: float
    rank: int
    generation: str
    source_codes: str
    species: dict[str, float]
    completeness: float
    sex: str
    holds: tuple[tuple[str, float], ...]
    held: float
    young: int


@dataclass(frozen=True)
class FounderPage:
    """The diversity of the living, its founders, and its breeders by rank.

    `by_species` has the diversity of each species by itself, the largest first: pooled, several
    species look like one diverse colony. Who has no species, or is a cross, is under "".
    """

    by_species: dict[str, Diversity]
    diversity: Diversity
    size_from_sexes: float
    size_from_inbreeding: RealisedSize
    gene_drop: dict[str, Any] | None
    founders: list[FounderLine]
    breeders: list[BreederLine]


def founder_page(
    session: Session, *, species: str | None = None, drops: int = 0, seed: int = 0, today: date
) -> FounderPage:
    """Sum up what the founders left in everybody present, of one species or of all.

    Parameters
    ----------
    drops
        How often genes are dropped down the pedigree; 0 leaves the simulation out.
    seed
        Fixes the outcome of the drops.
    today
        The day that the colony is looked at.

    Raises
    ------
    NoSuchSpecies, NobodyLives
    """
    name = find_species(session, species).name if species else None
    lineage = read_lineage(session)
    living = np.array(
        [
            at
            for at, row in enumerate(lineage.herd.rows)
            if row.status == "present" and name in {None, row.species}
        ],
        dtype=np.int64,
    )
    if not len(living):
        raise NobodyLives(today)
    pedigree = lineage.pedigree
    known = generation_equivalents(pedigree)[living]
    inbred = np.array(lineage.inbreeding([lineage.herd.rows[at].id for at in living]))
    drop = drop_genes(pedigree, living, drops=drops, seed=seed) if drops else None
    bred = {*pedigree.dam.tolist(), *pedigree.sire.tolist()}
    bred = bred.union(*(doubt.sires for doubt in pedigree.doubts))
    sexes = Counter(lineage.herd.rows[at].sex for at in living.tolist() if at in bred)
    return FounderPage(
        by_species=_by_species(lineage, living.tolist()),
        diversity=diversity(pedigree, living),
        size_from_sexes=size_from_sexes(sexes["M"], sexes["F"]),
        size_from_inbreeding=size_from_inbreeding(inbred, known),
        gene_drop=_drop_figures(drop, drops, seed),
        founders=_founder_lines(
            pedigree, contributions(pedigree, living), drop, holdings(pedigree, living), living
        ),
        breeders=_breeder_lines(session, lineage, living.tolist(), known.tolist()),
    )


def _by_species(lineage: Lineage, living: Sequence[int]) -> dict[str, Diversity]:
    groups: dict[str, list[int]] = defaultdict(list)
    for at in living:
        groups[lineage.herd.rows[at].species or ""].append(at)
    return {
        species: diversity(lineage.pedigree, np.array(places, dtype=np.int64))
        for species, places in sorted(groups.items(), key=lambda group: -len(group[1]))
    }


def _founder_lines(
    pedigree: Pedigree,
    left: Contributions,
    drop: GeneDrop | None,
    holding: Holdings,
    living: IntArray,
) -> list[FounderLine]:
    kept = {}
    if drop is not None:
        figures = zip(drop.retained.tolist(), drop.retained_error.tolist(), strict=True)
        kept = dict(zip(drop.founders.tolist(), figures, strict=True))
    tags = [pedigree.tags[at] for at in living.tolist()]
    holders = {
        founder: _most(tags, holding.held[:, column], MOST_HOLDERS)
        for column, founder in enumerate(holding.founders.tolist())
    }
    return [
        FounderLine(
            pedigree.tags[founder], part, holders[founder], *kept.get(founder, (None, None))
        )
        for founder, part in zip(left.founders.tolist(), left.parts.tolist(), strict=True)
    ]


def _most(tags: Sequence[str], parts: FloatArray, most: int) -> tuple[tuple[str, float], ...]:
    """The largest parts with their tags, nothing under `LEAST_HELD`."""
    order = np.argsort(-parts, kind="stable")[:most].tolist()
    return tuple((tags[at], float(parts[at])) for at in order if parts[at] >= LEAST_HELD)


def _held_in_species(
    lineage: Lineage, living: Sequence[int]
) -> dict[int, tuple[tuple[str, float], ...]]:
    """The founders of whom each holds most, of what is left in its own species."""
    groups: dict[str | None, list[int]] = defaultdict(list)
    for at in living:
        groups[lineage.herd.rows[at].species].append(at)
    found = {}
    for places in groups.values():
        holding = holdings(lineage.pedigree, np.array(places, dtype=np.int64))
        tags = [lineage.pedigree.tags[at] for at in holding.founders.tolist()]
        held = holding.held
        for n, at in enumerate(places):
            found[at] = _most(tags, held[n], len(tags))
    return found


def _young_here(lineage: Lineage, living: Sequence[int]) -> Counter[int]:
    """How many young of each are here; a sire in doubt counts where he is the likeliest."""
    here, pedigree = set(living), lineage.pedigree
    likeliest = {
        pup: max(zip(doubt.shares, doubt.sires, strict=True))[1]
        for doubt in pedigree.doubts
        for pup in doubt.pups
    }
    young: Counter[int] = Counter()
    for at in here:
        young[int(pedigree.dam[at])] += 1
        young[int(likeliest.get(at, pedigree.sire[at]))] += 1
    return young


def _drop_figures(drop: GeneDrop | None, drops: int, seed: int) -> dict[str, Any] | None:
    if drop is None:
        return None
    return {
        "drops": drops,
        "seed": seed,
        "gene_diversity": drop.gene_diversity,
        "founder_genomes_surviving": drop.founder_genomes_surviving,
        "founder_genome_equivalents": drop.founder_genome_equivalents,
    }


def _breeder_lines(
    session: Session, lineage: Lineage, living: Sequence[int], known: Sequence[float]
) -> list[BreederLine]:
    places = np.array(living, dtype=np.int64)
    values = breeder_values(lineage.pedigree, places)
    elsewhere = read_conceived_elsewhere(session)
    rows = lineage.herd.rows
    wild = np.array([row.origin == "wild" or row.litter_id in elsewhere.wild for row in rows])
    unsure = np.array([row.litter_id in elsewhere.maybe for row in rows])
    numbers = generation_numbers(lineage.pedigree, wild, unsure)[places].tolist()
    kinds = list(session.exec(select(Species.name)).all())
    recorded = [kinds.index(row.species) if row.species else -1 for row in lineage.herd.rows]
    held = _held_in_species(lineage, living)
    young = _young_here(lineage, living)
    shares = species_shares(lineage.pedigree, np.array(recorded), len(kinds))[places]
    lines = [
        BreederLine(
            tag=lineage.pedigree.tags[at],
            mean_kinship=float(values.mean_kinship[n]),
            value=float(values.value[n]),
            rank=int(values.rank[n]),
            generation=generation_word(numbers[n]),
            source_codes=WILD_BORN if rows[at].litter_id in elsewhere.wild else "",
            species={kinds[k]: float(share) for k, share in enumerate(shares[n]) if share > 0},
            completeness=known[n],
            sex=rows[at].sex,
            holds=held[at],
            held=sum(part for _, part in held[at]),
            young=young[at],
        )
        for n, at in enumerate(living)
    ]
    return sorted(lines, key=lambda line: (line.rank, line.tag))
