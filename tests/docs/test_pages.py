"""The pages that are made from the program are of this program, and no page leads nowhere."""

import re
import sys

from checkout import ROOT

sys.path.insert(0, str(ROOT / "docs"))

from generate import command_page, refusal_page


def test_the_command_page_is_what_help_says() -> None:
    """Made anew it is the same; else run `python docs/generate.py`."""
    assert (ROOT / "docs" / "commands.md").read_text("utf-8") == command_page()


def test_the_refusal_page_is_what_every_refusal_says() -> None:
    """Made anew it is the same; else run `python docs/generate.py`."""
    assert (ROOT / "docs" / "refusals.md").read_text("utf-8") == refusal_page()


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
