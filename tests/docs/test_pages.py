"""The pages that are made from the program are of this program, and no page leads nowhere."""

import re
import sys

from checkout import ROOT

sys.path.insert(0, str(ROOT / "docs"))

from data_model import columns_without_sentence, data_model_page, unit_of
from generate import command_page, refusal_page


def test_the_command_page_is_what_help_says() -> None:
    """Made anew it is the same; else run `python docs/generate.py`."""
    assert (ROOT / "docs" / "commands.md").read_text("utf-8") == command_page()


def test_the_refusal_page_is_what_every_refusal_says() -> None:
    """Made anew it is the same; else run `python docs/generate.py`."""
    assert (ROOT / "docs" / "refusals.md").read_text("utf-8") == refusal_page()


def test_the_data_page_is_what_the_records_hold() -> None:
    """Made anew it is the same; else run `python docs/generate.py`."""
    assert (ROOT / "docs" / "data-model.md").read_text("utf-8") == data_model_page()


def test_each_column_of_the_book_has_its_sentence_and_no_sentence_is_left_over() -> None:
    """A new column is explained in `docs/columns.toml`; a column that went takes its sentence along."""
    assert columns_without_sentence() == []


def test_the_unit_of_a_column_is_the_longest_end_of_its_name() -> None:
    """Litres a day are not taken for a bare number, and a name without a unit has none."""
    assert unit_of("width_mm") == "mm"
    assert unit_of("drip_l_a_day") == "l/day"
    assert unit_of("most_percent_a_day") == "%/day"
    assert unit_of("total") == unit_of("why") == ""


def test_every_link_of_a_page_leads_to_a_file() -> None:
    """README, DEVELOPERS and the pages name no file that is not there."""
    pages = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *(ROOT / "docs").glob("*.md")]
    dead = [
        f"{page.name}: {target}"
        for page in pages
        for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text("utf-8"))
        if not (page.parent / target).exists()
    ]
    assert dead == []
