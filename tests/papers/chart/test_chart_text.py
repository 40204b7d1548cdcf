"""The words under each animal of a chart."""

from chart_pedigrees import half_sibs

from colony.papers.chart.members import Scope, chart_members
from colony.papers.chart.text import chart_text


def test_the_words_are_the_tag_f_and_the_known_generations() -> None:
    """A pup of half sibs has F 1/8, and both generations above it are known; a founder has no F.

    Wright 1922, Coefficients of inbreeding and relationship, Am. Nat. 56:330-338.
    """
    family = half_sibs()
    text = chart_text(family, chart_members(family, Scope(5, up=3)))
    assert text[5].lines == ("Xena", "F 0.1250", "2.0 gen")
    assert text[0].lines == ("Sam", "founder")


def test_a_sire_in_doubt_gives_f_a_range() -> None:
    """Sam is kin to Xena by 1/4: F is 0 without him, 1/4 with him, and 3/4 of it expected."""
    family = half_sibs()
    text = chart_text(family, chart_members(family, Scope(6, up=1)))
    assert text[6].inbreeding == ("F 0.1875", "0.000\N{EN DASH}0.250")
