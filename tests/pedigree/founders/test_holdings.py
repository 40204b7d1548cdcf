"""What each animal holds of what is left of a founder, held to genes dropped one by one."""

from random import Random

import pytest
from plain_pedigrees import at, family

from colony.pedigree.founders.founders import contributions
from colony.pedigree.founders.holdings import holdings
from colony.pedigree.graph.graph import Pedigree

ROWS = {
    "A": (None, None), "B": (None, None), "C": (None, None),
    "D": ("A", "B"), "E": ("A", "B"), "F": ("C", "D"), "G": ("C", "E"), "H": ("F", "E"),
}  # fmt: skip
LIVING = ("E", "F", "G", "H")


@pytest.fixture
def pedigree() -> Pedigree:
    """Three founders, two full sibs, and their young."""
    return family({tag: (dam, sire) for tag, (dam, sire) in ROWS.items() if dam and sire})


def dropped(times: int) -> dict[str, dict[str, float]]:
    """Mean part of each living animal's two copies that is of each founder, by simulation."""
    random, count = Random(5), {tag: dict.fromkeys("ABC", 0) for tag in LIVING}  # noqa: S311 - a simulation
    for _ in range(times):
        copies: dict[str, tuple[str, str]] = {}
        for tag, (dam, sire) in ROWS.items():
            if dam is None or sire is None:
                copies[tag] = (tag, tag)
            else:
                copies[tag] = (random.choice(copies[dam]), random.choice(copies[sire]))
        for tag in LIVING:
            for founder in copies[tag]:
                count[tag][founder] += 1
    return {tag: {f: n / (2 * times) for f, n in own.items()} for tag, own in count.items()}


def test_parts_are_those_of_genes_dropped_down_the_pedigree(pedigree: Pedigree) -> None:
    """Ten thousand drops: each part within two per cent."""
    living = at(pedigree, *LIVING)
    found = holdings(pedigree, living)
    wanted = dropped(10_000)
    for row, tag in enumerate(LIVING):
        for column, founder in enumerate(found.founders.tolist()):
            part = wanted[tag][pedigree.tags[founder]]
            assert found.parts[row, column] == pytest.approx(part, abs=0.02)


def test_holdings_of_a_founder_sum_to_all_that_is_left(pedigree: Pedigree) -> None:
    """By hand: of C there is 1/2 in F and in G and 1/4 in H, so that F holds 2/5."""
    living = at(pedigree, *LIVING)
    found = holdings(pedigree, living)
    assert found.held.sum(axis=0) == pytest.approx(1)
    column = [pedigree.tags[at] for at in found.founders.tolist()].index("C")
    assert found.held[:, column].tolist() == pytest.approx([0, 0.4, 0.4, 0.2])


def test_parts_agree_with_the_contributions_to_the_whole(pedigree: Pedigree) -> None:
    """The mean over the living is what contributions trace up (Lacy 1989)."""
    living = at(pedigree, *LIVING)
    found, whole = holdings(pedigree, living), contributions(pedigree, living)
    means = dict(zip(found.founders.tolist(), found.parts.mean(axis=0).tolist(), strict=True))
    for founder, part in zip(whole.founders.tolist(), whole.parts.tolist(), strict=True):
        assert means[founder] == pytest.approx(part)
