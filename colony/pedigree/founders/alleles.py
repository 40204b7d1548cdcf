"""Alleles on their way down the pedigree, many drops at a time."""

import numpy as np
from numpy.typing import NDArray

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.nodes import IntArray, Nodes


def drop_alleles(nodes: Nodes, chance: np.random.Generator, drops: int) -> NDArray[np.int32]:
    """Alleles of every node, (N, 2, drops): which of the founders' alleles stands there.

    An allele without a known origin is numbered by the place where it first stands.
    """
    places = 2 * np.arange(len(nodes), dtype=np.int32)
    alleles = np.empty((len(nodes), 2, drops), dtype=np.int32)
    alleles[:] = (places[:, None] + np.arange(2, dtype=np.int32))[..., None]
    for batch in nodes.by_step:
        animals = batch[(batch < nodes.animals) & np.isnan(nodes.given_own[batch])]
        for side, parents in enumerate((nodes.first, nodes.second)):
            pups = animals[parents[animals] != UNKNOWN]
            _inherit(alleles, pups, side, parents[pups], chance)
        for sire in batch[nodes.is_doubtful_sire[batch]].tolist():
            _choose(alleles, nodes, sire, chance)
        for founder in batch[(batch < nodes.animals) & ~np.isnan(nodes.given_own[batch])].tolist():
            _draw_from_stock(alleles, nodes, founder, chance)
    return alleles


def _inherit(
    alleles: NDArray[np.int32],
    pups: IntArray,
    side: int,
    parents: IntArray,
    chance: np.random.Generator,
) -> None:
    coin = chance.integers(0, 2, (len(pups), alleles.shape[2]), dtype=np.int8).astype(np.bool_)
    alleles[pups, side] = np.where(coin, alleles[parents, 1], alleles[parents, 0])


def _choose(
    alleles: NDArray[np.int32], nodes: Nodes, sire: int, chance: np.random.Generator
) -> None:
    """Let a sire in doubt be one of those that he may be, in each drop."""
    own = alleles[sire].copy()
    first, second = (
        own if parents[sire] == UNKNOWN else alleles[parents[sire]]
        for parents in (nodes.first, nodes.second)
    )
    is_first = chance.random(alleles.shape[2]) < nodes.first_share[sire]
    alleles[sire] = np.where(is_first, first, second)


def _draw_from_stock(
    alleles: NDArray[np.int32], nodes: Nodes, founder: int, chance: np.random.Generator
) -> None:
    """Let a related founder hold the allele of its stock as often as its kinship and F ask for.

    Either allele is the stock's with a chance of the root of the kinship, so that two founders
    both hold it with a chance of the kinship; both of one founder's are, or are copies of one
    of its own, with a chance of F.
    """
    stock = nodes.first[founder]
    root = float(np.sqrt(nodes.given_own[stock]))
    inbreeding = 2 * float(nodes.given_own[founder]) - 1
    both = min(inbreeding, root)
    drawn = chance.random(alleles.shape[2])
    of_stock, alone = alleles[stock, 0], 2 * root - both
    alleles[founder, 0] = np.where(drawn < root, of_stock, alleles[founder, 0])
    second = (drawn < both) | ((drawn >= root) & (drawn < alone))
    alleles[founder, 1] = np.where(second, of_stock, alleles[founder, 1])
    copied = (drawn >= alone) & (drawn < alone + inbreeding - both)
    alleles[founder, 1] = np.where(copied, alleles[founder, 0], alleles[founder, 1])
