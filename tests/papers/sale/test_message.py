"""What a buyer is told, and how kinship is said to somebody who has no pedigree before them."""

from datetime import date

import pytest

from colony.papers.sale.message import ToldAnimal, animal_line, kinship_in_words, message_text

TODAY = date(2026, 3, 9)
PUP = ToldAnimal(
    "P1", "F", "motoro", 135.4, "Alma", ("Bruno", "Caro"), "EUR 250.00", date(2026, 4, 1)
)


def test_an_animal_is_one_line() -> None:
    """Who, how wide, of whom, for how much, and when."""
    assert animal_line(PUP, TODAY) == (
        "- P1: female motoro, 13.5 cm wide, from Alma x Bruno or Caro, EUR 250.00, "
        "ready about 2026-04-01"
    )
    bare = ToldAnimal("P2", "U", "", None, None, (), "", None)
    assert animal_line(bare, TODAY) == "- P2: not sexed, parents not on record"


@pytest.mark.parametrize(
    ("greatest", "known", "words"),
    [
        (0.0, 2.0, "share no ancestor"),
        (0.0, 0.5, "not all of their parents are known"),
        (0.015625, 2.0, "distantly related"),
        (0.0625, 2.0, "no closer than cousins"),
        (0.125, 2.0, "half sibs or more"),
        (0.25, 2.0, "full sibs or more"),
    ],
)
def test_kinship_is_said_by_what_kin_it_is(greatest: float, known: float, words: str) -> None:
    """Second cousins 1/64, cousins 1/16, half sibs 1/8, full sibs 1/4, of unrelated founders (Wright 1922)."""
    assert words in kinship_in_words(greatest, greatest, 2, known)


def test_one_animal_is_related_to_nobody() -> None:
    """Nothing is said of a set of one."""
    assert kinship_in_words(0.0, 0.0, 1, 0.0) == ""


def test_a_message_ends_with_the_usual_cautions() -> None:
    """The sting, and the permit office."""
    text = message_text("For you:", [PUP], "", ["Until Friday."], TODAY)
    assert text.startswith("For you:\n\n- P1")
    assert "Until Friday." in text
    assert "Stings" in text
    assert text.endswith("ask your permit office and local codes.")
