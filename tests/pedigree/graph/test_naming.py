"""What a node of a pedigree is called."""

from dataclasses import replace

from plain_pedigrees import family

from colony.pedigree.graph.graph import FounderKinship
from colony.pedigree.graph.naming import node_names


def test_a_doubtful_sire_is_called_by_all_that_he_may_be() -> None:
    """Somebody unknown among them; nodes that only fold have no name."""
    pedigree = family({"P": ("D", None)}, P={"S": 0.5, "T": 0.3, "?": 0.2})
    names = node_names(pedigree)
    assert names[: len(pedigree)] == list(pedigree.tags)
    assert sorted(names[len(pedigree) :]) == ["", "S or T or somebody unknown"]


def test_what_related_founders_share_is_called_their_stock() -> None:
    """By the founders, as a person reads it."""
    pedigree = family({"P": ("D", "S")})
    places = (pedigree.tags.index("D"), pedigree.tags.index("S"))
    related = replace(pedigree, founder_kinship=(FounderKinship(places, 0.1),))
    assert node_names(related)[-1] == "stock of D and S"
