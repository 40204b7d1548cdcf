"""How a node is called where a person reads it."""

from colony.pedigree.doubt.doubts import UNKNOWN
from colony.pedigree.graph.graph import Pedigree

STRANGER = "somebody unknown"


def node_names(pedigree: Pedigree) -> list[str]:
    """Name of each node, (N,): its tag, or what a node in doubt stands for.

    A doubtful sire reads ``Bruno or Caro``; what related founders share, ``stock of A and B``.
    Nodes that only fold possible sires together have no name.
    """
    names = [*pedigree.tags, *[""] * (len(pedigree.nodes) - len(pedigree))]
    for node, possible in pedigree.nodes.choices:
        names[node] = " or ".join(
            pedigree.tags[sire] if sire != UNKNOWN else STRANGER for sire, _ in possible
        )
    for group in pedigree.founder_kinship:
        if group.founders:
            common = int(pedigree.nodes.first[group.founders[0]])
            names[common] = "stock of " + " and ".join(
                pedigree.tags[founder] for founder in group.founders
            )
    return names
