"""The millimetres of a chart."""

import numpy as np
import pytest
from chart_pedigrees import a_trio

from colony.papers.chart.chart import draw_chart
from colony.papers.chart.frame import frame
from colony.papers.chart.members import Scope, chart_members
from colony.papers.chart.places import chart_places
from colony.papers.chart.routes import route_families
from colony.papers.chart.text import chart_text
from colony.pedigree.graph.graph import Pedigree


def test_three_animals_stand_in_the_middle_of_a4() -> None:
    """Columns of 26 mm around 148.5 mm.

    Rows: 10 mm of margin and 9 of title, then 6 of symbol, two lines of words (6), 2 clear,
    14 of slack and 2 clear; so the middles are at 22 and 19 + 6 + 6 + 18 + 3 = 52 mm.
    """
    members = chart_members(a_trio(), Scope(2, up=1))
    places = chart_places(members)
    _, lanes = route_families(members.families, places)
    page = frame(places, lanes, chart_text(a_trio(), members))
    assert (page.width_mm, page.height_mm) == (297, 210)
    assert page.of(1) == pytest.approx((135.5, 22))
    assert page.of(0) == pytest.approx((161.5, 22))
    assert page.of(2) == pytest.approx((148.5, 52))
    assert page.lane(0, 1) - page.lane(0, 0) == pytest.approx(3)


def test_five_full_generations_fit_on_a4_in_a_size_that_can_be_read() -> None:
    """62 ancestors; no word is cut, and none is set smaller than 6 points."""
    tags, parents = ["X"], {0: (-1, -1)}
    for pup in range(31):
        parents[pup] = (len(tags), len(tags) + 1)
        tags += [f"LPO-21-{pup:02d}d", f"LPO-21-{pup:02d}s"]
    dam = np.array([parents.get(one, (-1, -1))[0] for one in range(63)])
    sire = np.array([parents.get(one, (-1, -1))[1] for one in range(63)])
    pedigree = Pedigree(tuple(tags), dam, sire, "U" + "FM" * 31)
    drawing = draw_chart(pedigree, Scope(0, up=5))
    assert (drawing.width_mm, drawing.height_mm) == (297, 210)
    assert {label.text for label in drawing.labels} >= set(tags)
    assert min(label.height_mm for label in drawing.labels) * 72 / 25.4 >= 6


def test_a_chart_wider_than_a4_gets_a_larger_page() -> None:
    """Fifty pups stay as far apart as can be read."""
    pups = 50
    pedigree = Pedigree(
        ("Dam", "Sire", *(f"P{one}" for one in range(pups))),
        np.array([-1, -1] + [0] * pups),
        np.array([-1, -1] + [1] * pups),
        "FM" + "U" * pups,
    )
    drawing = draw_chart(pedigree, Scope(0, up=1, down=1))
    assert drawing.width_mm > 400
    assert len(drawing.symbols) == pups + 2
