"""What a paper says, in numbers that are signed and in sentences that are read."""

from dataclasses import replace

import pytest
from papers_of import PAPER

from colony.papers.proof.facts import NUMBERS, facts_of, inbreeding_in_words, named, sentences


def test_every_fact_has_a_number_of_its_own_and_what_is_unknown_is_left_out() -> None:
    """A number is never given to another fact: papers are kept for years."""
    assert len(set(NUMBERS.values())) == len(NUMBERS)
    facts = facts_of(PAPER)
    assert (facts[2], facts[10], facts[11], facts[14]) == ("26-01-3", 625, 25, 158)
    bare = replace(PAPER, line="", transponder="", widths=(), foods=(), dam="")
    assert not {6, 12, 13, 14, 15, 19} & facts_of(bare).keys()


def test_facts_are_named_again_also_those_of_a_later_program() -> None:
    """Nothing that was signed is kept from who looks."""
    assert named({2: "P1", 99: "new"}) == {"tag": "P1", "fact 99": "new"}


def test_each_line_can_be_held_against_the_paper() -> None:
    """Doubtful sires are told as such."""
    lines = sentences(facts_of(PAPER))
    assert "Sire: Bruno or Caro" in lines
    assert "Dam: Alma (Iris x Ivo)" in lines
    assert "Width: 15.8 cm on 2026-03-08" in lines


@pytest.mark.parametrize(
    ("inbreeding", "generations", "words"),
    [
        (0.0, 0.0, "no ancestor is known, so nothing can be said"),
        (0.0, 2.0, "no common ancestor of its parents in 2.0 known generations"),
        (0.0625, 3.5, "F 0.0625 (6.2 %), 3.5 known generations"),
    ],
)
def test_an_empty_pedigree_does_not_look_like_a_clean_one(
    inbreeding: float, generations: float, words: str
) -> None:
    """F of 0 from nothing known says that nothing is known."""
    assert words in inbreeding_in_words(inbreeding, generations)
