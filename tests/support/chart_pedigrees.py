"""Pedigrees whose charts are drawn."""

import numpy as np
from hypothesis import strategies as st

from colony.papers.chart.members import Scope
from colony.pedigree.graph.graph import Doubt, Pedigree


def a_family() -> Pedigree:
    """A pup of first cousins, whose own pup has a doubtful sire; Dora and Sam are met twice."""
    tags = ("Sam", "Dora", "Tom", "Eva", "Ada", "Bert", "Cleo", "Gus", "Xena", "Max", "Pup")
    dam = {
        "Ada": "Dora",
        "Bert": "Dora",
        "Cleo": "Ada",
        "Gus": "Eva",
        "Xena": "Cleo",
        "Pup": "Xena",
    }
    sire = {"Ada": "Sam", "Bert": "Sam", "Cleo": "Tom", "Gus": "Bert", "Xena": "Gus"}
    return Pedigree(
        tags=tags,
        dam=np.array([tags.index(dam[tag]) if tag in dam else -1 for tag in tags]),
        sire=np.array([tags.index(sire[tag]) if tag in sire else -1 for tag in tags]),
        sexes="MFMFFMFMFMU",
        doubts=(Doubt((10,), (9, 7, -1), (0.5, 0.3, 0.2)),),
    )


XENA = Scope(8, up=4, down=1, dead=frozenset({0, 2}))
"""The chart of Xena: four generations up, one down; Sam and Tom are dead."""


def half_sibs() -> Pedigree:
    """A pup of half sibs through Sam, who may be the sire of its own pup too."""
    return Pedigree(
        tags=("Sam", "Dora", "Eva", "Ada", "Bert", "Xena", "Pup"),
        dam=np.array([-1, -1, -1, 1, 2, 3, 5]),
        sire=np.array([-1, -1, -1, 0, 0, 4, -1]),
        sexes="MFFFMFU",
        doubts=(Doubt((6,), (0, -1), (0.75, 0.25)),),
    )


def a_trio() -> Pedigree:
    """A dam, a sire and their pup, in that order."""
    return Pedigree(("Dam", "Sire", "Pup"), np.array([-1, -1, 0]), np.array([-1, -1, 1]), "FMU")


@st.composite
def charted(draw: st.DrawFn) -> tuple[Pedigree, Scope]:
    """Random pedigrees, much inbred, with doubts, and a chart of one of the animals."""
    n = draw(st.integers(3, 14))
    dam, sire, doubts = np.full(n, -1), np.full(n, -1), []
    for pup in range(2, n):
        dam[pup] = draw(st.sampled_from([*range(0, pup, 2), -1]))
        males = list(range(1, pup, 2))
        if draw(st.integers(0, 4)):
            sire[pup] = draw(st.sampled_from([*males, -1]))
        else:
            possible = draw(st.lists(st.sampled_from(males), min_size=1, max_size=3, unique=True))
            shares = (1 / (len(possible) + 1),) * (len(possible) + 1)
            doubts.append(Doubt((pup,), (*possible, -1), shares))
    tags = tuple(f"R{one}" for one in range(n))
    pedigree = Pedigree(tags, dam, sire, "FM" * (n // 2) + "F" * (n % 2), tuple(doubts))
    up, down = draw(st.integers(0, 5)), draw(st.integers(0, 3))
    return pedigree, Scope(draw(st.integers(0, n - 1)), up, down)
