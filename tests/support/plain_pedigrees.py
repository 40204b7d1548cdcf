"""Builders of small pedigrees, and the plain slow answers that fast ones are held against."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

import numpy as np
from hypothesis import strategies as st

from colony.pedigree.graph.graph import Doubt, FloatArray, Pedigree

Parents = tuple[str | None, str | None]


def family(parents: Mapping[str, Parents], **doubtful: Mapping[str, float]) -> Pedigree:
    """Build a pedigree from ``{pup: (dam, sire)}``; parents not listed are founders.

    ``doubtful`` gives pups their possible sires with shares; a sire "?" is somebody unknown.
    """
    sires = {sire: "M" for _, sire in parents.values() if sire}
    sires |= {sire: "M" for shares in doubtful.values() for sire in shares if sire != "?"}
    dams = {dam: "F" for dam, _ in parents.values() if dam}
    sexes = sires | dams | {pup: (sires | dams).get(pup, "U") for pup in parents}
    tags = tuple(sexes)
    at = {tag: place for place, tag in enumerate(tags)} | {"?": -1}
    named = [parents.get(tag, (None, None)) for tag in tags]
    return Pedigree(
        tags=tags,
        dam=np.array([at[dam] if dam else -1 for dam, _ in named]),
        sire=np.array([at[sire] if sire else -1 for _, sire in named]),
        sexes="".join(sexes.values()),
        doubts=tuple(
            Doubt((at[pup],), tuple(at[share] for share in shares), tuple(shares.values()))
            for pup, shares in doubtful.items()
        ),
    )


def at(pedigree: Pedigree, *tags: str) -> np.ndarray[tuple[int], np.dtype[np.int64]]:
    """Positions of some tags."""
    return np.array([pedigree.tags.index(tag) for tag in tags], dtype=np.int64)


def plain_kinship(pedigree: Pedigree) -> FloatArray:
    """Kinship of all with all by the definition, one pair at a time, (n, n).

    The later of two is replaced by its parents; itself it is (1 + F) / 2. Without doubts.
    """
    dam, sire = pedigree.dam.tolist(), pedigree.sire.tolist()

    @cache
    def depth(one: int) -> int:
        return 0 if one < 0 else 1 + max(depth(dam[one]), depth(sire[one]))

    @cache
    def of(one: int, other: int) -> float:
        if one < 0 or other < 0:
            return 0.0
        if one == other:
            return 0.5 + 0.5 * of(dam[one], sire[one])
        if depth(one) < depth(other):
            one, other = other, one
        return 0.5 * of(dam[one], other) + 0.5 * of(sire[one], other)

    everybody = range(len(pedigree))
    return np.array([[of(one, other) for other in everybody] for one in everybody])


@dataclass(frozen=True)
class World:
    """One way in which all doubts could be settled, and its probability."""

    pedigree: Pedigree
    probability: float


def worlds(pedigree: Pedigree) -> Iterator[World]:
    """Every way to settle the doubts; a sire unknown becomes one more founder each time."""
    drawn = [
        (pups, list(zip(doubt.sires, doubt.shares, strict=True)))
        for doubt in pedigree.doubts
        for pups in ([(pup,) for pup in doubt.pups] if doubt.pups_may_differ else [doubt.pups])
    ]
    n, strangers = len(pedigree), len(drawn)
    for settled in product(*(possible for _, possible in drawn)):
        new = np.full(strangers, -1)
        dam, sire = np.append(pedigree.dam, new), np.append(pedigree.sire, new)
        for stranger, ((pups, _), (chosen, _)) in enumerate(zip(drawn, settled, strict=True)):
            sire[list(pups)] = chosen if chosen >= 0 else n + stranger
        world = replace(
            pedigree,
            tags=(*pedigree.tags, *(f"stranger {one}" for one in range(strangers))),
            dam=dam,
            sire=sire,
            sexes=[*pedigree.sexes, *["M"] * strangers],
            doubts=(),
        )
        yield World(world, float(np.prod([share for _, share in settled])))


@dataclass(frozen=True)
class Enumerated:
    """Kinship of all with all, (n, n): expected, least and greatest over all worlds."""

    expected: FloatArray
    least: FloatArray
    greatest: FloatArray


def enumerated(pedigree: Pedigree) -> Enumerated:
    """Go through every world by brute force."""
    n = len(pedigree)
    found = [
        (world.probability, plain_kinship(world.pedigree)[:n, :n]) for world in worlds(pedigree)
    ]
    tables = np.array([table for _, table in found])
    expected = np.einsum("w,wij->ij", np.array([probability for probability, _ in found]), tables)
    return Enumerated(expected, tables.min(axis=0), tables.max(axis=0))


@st.composite
def pedigrees(draw: st.DrawFn, most: int = 9, most_doubts: int = 3) -> Pedigree:
    """Random small pedigrees in a random record order, with doubts of every kind."""
    n = draw(st.integers(3, most))
    place = draw(st.permutations(range(n)))
    sexes = ["F", "M", *(draw(st.sampled_from("FM")) for _ in range(n - 2))]
    dam, sire = np.full(n, -1), np.full(n, -1)
    doubts: list[Doubt] = []
    for pup in range(2, n):
        dams, sires = ([place[one] for one in range(pup) if sexes[one] == sex] for sex in "FM")
        dam[place[pup]] = draw(st.sampled_from([*dams, *dams, -1]))
        kind = draw(st.sampled_from(["known", "known", "unknown", "doubt", "same doubt"]))
        if kind == "known":
            sire[place[pup]] = draw(st.sampled_from(sires))
        elif kind == "doubt" and len(doubts) < most_doubts:
            doubts.append(_doubt(draw, place[pup], sires))
        elif kind == "same doubt" and doubts:
            doubts[-1] = replace(doubts[-1], pups=(*doubts[-1].pups, place[pup]))
    letters = [sexes[place.index(at)] for at in range(n)]
    tags = tuple(f"R{at}" for at in range(n))
    return Pedigree(tags, dam, sire, "".join(letters), tuple(doubts))


def _doubt(draw: st.DrawFn, pup: int, sires: Sequence[int]) -> Doubt:
    possible = draw(st.lists(st.sampled_from([*sires, -1]), min_size=1, max_size=3, unique=True))
    weights = [draw(st.integers(1, 9)) for _ in possible]
    shares = tuple(weight / sum(weights) for weight in weights)
    return Doubt((pup,), tuple(possible), shares, pups_may_differ=draw(st.booleans()))
