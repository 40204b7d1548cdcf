"""What the headings of a breeder's own sheet mean."""

import pytest

from colony.exchange.sheet.headings import FIELDS, match_headings
from colony.refusals.base import WrongUse
from colony.refusals.exchange import (
    BadMapping,
    FieldTwice,
    NoSuchColumn,
    NoSuchField,
    NoTagColumn,
)


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("Mother", "dam"),
        ("MUM", "dam"),
        ("Father", "sire"),
        ("DOB", "born"),
        ("Birth_Date", "born"),
        ("Disc width", "width"),
        ("dw", "width"),
        ("Chip No.", "transponder"),
        ("gender", "sex"),
        ("Remarks", "note"),
    ],
)
def test_usual_headings_are_known_in_any_case(heading: str, field: str) -> None:
    """A breeder need not rename columns for the import."""
    assert match_headings("x.csv", ["Tag", heading], ()).places == {"tag": 0, field: 1}


@pytest.mark.parametrize(
    ("heading", "unit"),
    [("width_in", "in"), ("DW (cm)", "cm"), ("Disc width [mm]", "mm"), ("size inches", "in")],
)
def test_a_heading_may_name_the_unit(heading: str, unit: str) -> None:
    """A unit in the heading holds for every bare number under it."""
    columns = match_headings("x.csv", ["tag", heading], ())
    assert columns.places["width"] == 1
    assert columns.units == {"width": unit}


def test_no_heading_means_two_fields() -> None:
    """The table of synonyms is a function: each heading stands once."""
    written = [word for field in FIELDS.values() for word in field.headings.split()]
    own = [field.replace("_", "/") for field in FIELDS]
    assert len({*written}) == len(written)
    assert all(
        word in FIELDS[word.replace("/", "_")].headings.split() for word in own if word in written
    )


def test_unknown_columns_are_reported_as_ignored() -> None:
    """Nothing is lost in silence; an empty heading is no column."""
    columns = match_headings("x.csv", ["tag", "shoe size", "", "dam"], ())
    assert columns.ignored == ("shoe size",)


def test_a_mapping_goes_before_the_heading() -> None:
    """What the user says of a column holds, and a column can be left out."""
    columns = match_headings("x.csv", ["name", "id", "x=y"], ["Name=tag", "id=ignore", "x=y=line"])
    assert columns.places == {"tag": 0, "line": 2}
    assert columns.ignored == ("id",)


@pytest.mark.parametrize(
    ("headings", "mappings", "refusal"),
    [
        (["name", "dam"], [], NoTagColumn),
        (["tag", "dam", "mother"], [], FieldTwice),
        (["tag"], ["tag"], BadMapping),
        (["tag"], ["=tag"], BadMapping),
        (["tag"], ["shoe=note"], NoSuchColumn),
        (["tag", "shoe"], ["shoe=size12"], NoSuchField),
    ],
)
def test_columns_that_make_no_list_of_animals_are_refused(
    headings: list[str], mappings: list[str], refusal: type[WrongUse]
) -> None:
    """Each refusal is one sentence that shows what would be right."""
    with pytest.raises(refusal) as refused:
        match_headings("x.csv", headings, mappings)
    assert "\n" not in refused.value.sentence
