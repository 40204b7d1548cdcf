"""How many generations an animal stands from the wild."""

import numpy as np

from colony.pedigree.graph.graph import Pedigree
from colony.pedigree.graph.nodes import BoolArray, IntArray

UNDETERMINED = -1


def generation_numbers(
    pedigree: Pedigree, wild: BoolArray, unsure: BoolArray | None = None
) -> IntArray:
    """Generation number of each animal, (n,): 0 wild, 1 for F1, 2 for F2 and so on, -1 undetermined.

    F1 has at least one parent that was conceived in or taken from the wild; beyond that a pup
    is one more than the lesser number of its parents. So the number never promises more than is
    recorded. It is undetermined where a parent, or its number, is not known and the other is not
    wild, and where the possible sires do not all give the same number.

    After the definitions of F1 and F2 in CITES Resolution Conf. 10.16 (Rev.), which stop at F2;
    counting on is our own. The permit office decides.

    Parameters
    ----------
    wild
        Whether each animal was conceived in or taken from the wild, (n,): the pups of a female
        that was imported pregnant too (CITES Notification 1998/14).
    unsure
        Whether each may have been conceived where nobody of the house saw it, (n,): before its
        dam came. Its number is undetermined, whatever its parents are.
    """
    nodes = pedigree.nodes
    number = np.full(len(nodes) + 1, UNDETERMINED, dtype=np.int64)
    for batch in nodes.by_step:
        first, second = number[nodes.first[batch]], number[nodes.second[batch]]
        is_choice = nodes.is_doubtful_sire[batch]
        agreed = np.where(first == second, first, UNDETERMINED)
        number[batch] = np.where(is_choice, agreed, _next(first, second))
        caught = batch[batch < len(pedigree)]
        number[caught[wild[caught]]] = 0
        if unsure is not None:
            number[caught[unsure[caught]]] = UNDETERMINED
    return number[: len(pedigree)]


def generation_word(number: int) -> str:
    """``wild``, ``F1``, ``F2`` or ``undetermined``."""
    return {UNDETERMINED: "undetermined", 0: "wild"}.get(number, f"F{number}")


def _next(first: IntArray, second: IntArray) -> IntArray:
    lesser, greater = np.minimum(first, second), np.maximum(first, second)
    of_known = np.where(lesser == UNDETERMINED, UNDETERMINED, lesser + 1)
    return np.where((greater == 0) | (lesser == 0), 1, of_known)
