"""Several possible sires in one cell."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.tables.sires import read_sires, same_sires, write_sires
from colony.notation.shares import SireShare
from colony.refusals.base import WrongUse
from colony.refusals.notation import SharesDoNotSum, SireTwice, UnreadableShare

TAGS = {"bruno", "caro", "big boy", "2/7"}


def known(text: str) -> bool:
    """Whether a text is a tag of the test's book."""
    return text.casefold() in TAGS


@pytest.mark.parametrize(
    ("cell", "sires"),
    [
        ("Bruno", {"Bruno": 1}),
        ("Bruno=0.7 Caro=0.3", {"Bruno": 0.7, "Caro": 0.3}),
        ("Bruno=70%, Caro=30%", {"Bruno": 0.7, "Caro": 0.3}),
        ("Bruno = 0,7; Caro = 0,3", {"Bruno": 0.7, "Caro": 0.3}),
        ("Big Boy=0.5 Caro=0.5", {"Big Boy": 0.5, "Caro": 0.5}),
        ("Bruno/Caro", {"Bruno": 0.5, "Caro": 0.5}),
        ("Bruno or Caro", {"Bruno": 0.5, "Caro": 0.5}),
        ("Bruno, Caro; 2", {"Bruno": 1 / 3, "Caro": 1 / 3, "2": 1 / 3}),
        ("2/7", {"2/7": 1}),
        ("Bruno=0.6 unknown=0.4", {"Bruno": 0.6, None: 0.4}),
    ],
)
def test_the_ways_to_write_several_sires(cell: str, sires: dict[str | None, float]) -> None:
    """Shares, strokes, commas and "or" are read; a known tag is one sire whatever it holds."""
    read = {sire.tag: sire.share for sire in read_sires(cell, known)}
    assert read == pytest.approx(sires)


@pytest.mark.parametrize(
    ("cell", "refusal"),
    [
        ("Bruno=0.7 Caro=0.2", SharesDoNotSum),
        ("Bruno=0.7 Caro", UnreadableShare),
        ("Bruno=most", UnreadableShare),
        ("Bruno/bruno", SireTwice),
    ],
)
def test_shares_that_cannot_be_are_refused(cell: str, refusal: type[WrongUse]) -> None:
    """The refusals of the command line hold for cells too."""
    with pytest.raises(refusal):
        read_sires(cell, known)


@given(st.lists(st.integers(1, 1000), min_size=1, max_size=6))
def test_written_sires_are_read_back(weights: list[int]) -> None:
    """Shares survive a file to nine decimals, thirds too."""
    sires = tuple(
        SireShare(f"Sire {place}", weight / sum(weights)) for place, weight in enumerate(weights)
    )
    assert same_sires(read_sires(write_sires(sires), lambda _: False), sires)
