"""Bytes to text, whichever program wrote them."""

import codecs

import pytest
from hypothesis import given
from hypothesis import strategies as st

from colony.exchange.text.encodings import decode
from colony.refusals.exchange import NotPlainText

WORDS = "Zoë;Größe 12,5 cm"


@pytest.mark.parametrize(
    "content",
    [
        WORDS.encode("utf-8"),
        WORDS.encode("utf-8-sig"),
        WORDS.encode("cp1252"),
        WORDS.encode("utf-16"),
        codecs.BOM_UTF16_BE + WORDS.encode("utf-16-be"),
    ],
)
def test_what_the_usual_programs_write_reads_the_same(content: bytes) -> None:
    """Python's own codecs wrote it; marks are left out."""
    assert decode(content, "a.csv") == WORDS


@pytest.mark.parametrize(
    ("content", "what"),
    [
        (b"PK\x03\x04rest", "workbook"),
        (b"\xd0\xcf\x11\xe0rest", "old workbook"),
        (b"SQLite format 3\x00", "database"),
        (b"%PDF-1.7", "PDF"),
        (codecs.BOM_UTF16_LE + b"a", "broken text"),
        (b"tag\x00", "binary file"),
    ],
)
def test_what_is_no_text_is_named(content: bytes, what: str) -> None:
    """A workbook must be saved as text first, and the sentence says that it is one."""
    with pytest.raises(NotPlainText, match=what):
        decode(content, "a.csv")


@given(st.text(alphabet=st.characters(exclude_characters="\x00", exclude_categories=["Cs"])))
def test_any_text_in_utf_8_comes_back(text: str) -> None:
    """Whatever a breeder writes; a mark in front is no part of it."""
    if not text.encode().startswith((b"PK\x03\x04", b"%PDF")):
        assert decode(codecs.BOM_UTF8 + text.encode("utf-8"), "a.csv") == text
