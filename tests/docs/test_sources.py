"""Every work named in the code stands in the page of sources, with what was taken and how it was seen."""

import re
import unicodedata
from calendar import month_abbr, month_name

from checkout import ROOT

NAME = r"[A-Z][^\W\d_]+(?:[-'][A-Z]?[^\W\d_]+)*"
WORK = re.compile(
    rf"(?<![\w-])(?P<first>{NAME})(?:, (?:De |de )?{NAME})*(?:,? & {NAME})?(?: et al\.,?)?"
    r",? \(?(?P<year>(?:18|19|20)\d\d)\b(?!-\d)"
)
NO_WORKS = {*month_name, *month_abbr, "Foo", "Programming"}
"""Words before a number that looks like a year: months, a bad date in a test, a title."""

OF = {"Notification": "CITES"}
SEEN = {"full text", "abstract", "second hand", "from memory"}


def plain(text: str) -> str:
    """Write a name without its accents."""
    return unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()


def named_in_code() -> set[tuple[str, str]]:
    """First author and year of each work that the code and its tests name."""
    found = set()
    for folder in ("colony", "tests"):
        for path in (ROOT / folder).rglob("*.py"):
            text = re.sub(r"\s*\n\s*(#:? ?)?", " ", path.read_text("utf-8"))
            for work in WORK.finditer(text):
                first = OF.get(work["first"], work["first"])
                if first not in NO_WORKS:
                    found.add((plain(first), work["year"]))
    return found


def rows() -> list[list[str]]:
    """The cells of each line of the page's table."""
    lines = (ROOT / "docs" / "sources.md").read_text("utf-8").splitlines()
    table = [line.strip("| ").split(" | ") for line in lines if line.startswith("| ")]
    return table[2:]


def test_every_work_that_the_code_names_stands_in_the_page() -> None:
    """By its first author and its year."""
    listed = {
        (plain(row[0].split()[0].rstrip(".")), year)
        for row in rows()
        for year in re.findall(r"\b(?:18|19|20)\d\d\b", row[0])[:1]
    }
    named = named_in_code()
    assert len(named) > 50
    assert sorted(named - listed) == []


def test_every_line_says_what_was_taken_and_how_it_was_seen() -> None:
    """Three cells each, the last one of four words; in order of names; no work twice."""
    works = [row[0] for row in rows()]
    assert all(len(row) == 3 and row[1] and row[2] in SEEN for row in rows())
    names = [plain(work).casefold().split()[0] for work in works]
    assert names == sorted(names)
    assert len(set(works)) == len(works)
