"""The lines of one family, in millimetres worked out by hand."""

from dataclasses import replace

import pytest

from colony.papers.chart.drawing import Stroke
from colony.papers.chart.frame import Frame
from colony.papers.chart.members import Family
from colony.papers.chart.places import Places
from colony.papers.chart.routes import Drop, Route
from colony.papers.chart.strokes import share_labels, strokes

FAMILY = Family(0, ((1, 1.0),), (2, 3), doubtful=False, related=frozenset())
BESIDE = Route(FAMILY, (), joint=2.0, joint_lane=None, pup_lane=0, gap=0)
"""The pair side by side, and its two pups below a level line."""

DOUBTFUL = Route(FAMILY, (Drop(1, 1.2, 0.75), Drop(0, 3.0, None)), 2.0, 0, 1, 0)
"""The sire in doubt: his line leaves him 0.2 columns aside."""

PAGE = Frame(
    places=Places(column={1: 1.0, 0: 3.0, 2: 1.0, 3: 3.0}, row={0: 0, 1: 0, 2: 1, 3: 1}),
    width_mm=70,
    height_mm=60,
    column_mm=20,
    words=(),
    centre_mm=(10, 40),
    first_lane_mm=(20,),
)
"""Columns of 20 mm from 0 on: 3.5 of them fill the width; lanes at 20 and 23 mm."""


def ends(lines: list[Stroke]) -> list[tuple[float, ...]]:
    """From where to where each line runs, to a hundredth of a millimetre."""
    return [
        tuple(round(at, 2) for at in (line.x1_mm, line.y1_mm, line.x2_mm, line.y2_mm))
        for line in lines
    ]


def test_a_pair_side_by_side_has_a_line_between_and_one_down_to_its_pups() -> None:
    """The line begins and ends at the symbols of 6 mm, and does not run into them."""
    assert ends(list(strokes(BESIDE, PAGE))) == [
        (23, 10, 57, 10),
        (40, 10, 40, 20),
        (20, 20, 60, 20),
        (20, 20, 20, 40),
        (60, 20, 60, 40),
    ]


def test_related_parents_have_a_double_line() -> None:
    """Two lines 0.7 mm apart instead of one; Bennett et al. 1995, Am. J. Hum. Genet. 56:745-752."""
    related = replace(BESIDE, family=replace(FAMILY, related=frozenset({1})))
    assert ends(list(strokes(related, PAGE)))[:2] == [(23, 9.65, 57, 9.65), (23, 10.35, 57, 10.35)]


def test_the_line_of_a_sire_in_doubt_is_dashed_down_to_the_joint() -> None:
    """It leaves him 1.6 mm below his middle; the dam's and the pups' lines are whole."""
    lines = list(strokes(DOUBTFUL, PAGE))
    dashed = ends([line for line in lines if line.dashed])
    assert dashed == [(20, 11.6, 24, 11.6), (24, 11.6, 24, 20), (24, 20, 40, 20)]
    assert (60, 10, 60, 20) in ends([line for line in lines if not line.dashed])


def test_a_share_stands_at_the_foot_of_the_line() -> None:
    """Half a millimetre above the joint, for the sire in doubt alone."""
    (label,) = share_labels(DOUBTFUL, PAGE)
    assert label.text == "75%"
    assert (label.x_mm, label.y_mm) == pytest.approx((24, 19.5))
