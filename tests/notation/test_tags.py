"""Tags and notes, as they are typed and printed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation.tags import (
    LONGEST_TAG,
    LONGEST_TEXT,
    nearest_tags,
    parse_tag,
    parse_text,
    printable,
    tag_order,
)
from colony.refusals.notation import BadTag, UnprintableText


@pytest.mark.parametrize("text", ["Alma", "26-01-3", "Ö 4/b", "[red]", "x" * LONGEST_TAG, "ﬁn"])
def test_a_tag_is_what_can_be_written_on_a_tank(text: str) -> None:
    """Letters of any script, digits, spaces and brackets: what is printed as it is."""
    assert parse_tag(f" {text} ") == text


def test_a_tag_is_one_tag_however_it_was_typed() -> None:
    """An accent typed apart from its letter is the same letter (Unicode NFC)."""
    assert parse_tag("Zoe\N{COMBINING DIAERESIS}") == "Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}"


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "-x",
        "a=b",
        "a,b",
        "a;b",
        "a*",
        "a\nb",
        "\x1b[31mred",
        "a\u202eb",
        chr(0xDCFF),
        "x" * (LONGEST_TAG + 1),
    ],
)
def test_what_cannot_be_a_tag_is_refused(text: str) -> None:
    """Nothing, too much, an option, a list, or a code that a terminal would obey."""
    with pytest.raises(BadTag) as refusal:
        parse_tag(text)
    assert refusal.value.sentence.isprintable()


def test_a_note_may_have_lines_but_no_codes() -> None:
    """Notes are kept as written; control codes and endless texts are refused."""
    assert parse_text(" seen\ntwice ", "note") == "seen\ntwice"
    for text in ("\x1b]0;title\x07", "x" * (LONGEST_TEXT + 1)):
        with pytest.raises(UnprintableText, match="note"):
            parse_text(text, "note")


@given(st.text())
def test_any_stored_text_is_safe_to_print(text: str) -> None:
    """A name that came into the file past the program is inert on the screen."""
    assert printable(text).isprintable()
    assert len(printable(text)) == len(text)


def test_the_nearest_tags_are_named_for_a_mistyped_one() -> None:
    """A letter off, another case: what was meant comes first; nothing near is nothing."""
    tags = ["Alma", "Alva", "Bruno", "26-01-1"]
    assert nearest_tags("alma", tags)[0] == "Alma"
    assert nearest_tags("Brumo", tags) == ["Bruno"]
    assert nearest_tags("zzz", tags) == []


def test_tags_stand_in_the_order_in_which_a_person_counts() -> None:
    """G2 before G10, whatever the case; letters and figures may be mixed."""
    tags = ["g10", "G2", "S1", "26-10-2", "26-9-1", "N", ""]
    assert sorted(tags, key=tag_order) == ["", "26-9-1", "26-10-2", "G2", "g10", "N", "S1"]


@given(st.text(max_size=15))
def test_no_text_does_anything_but_be_a_tag_or_a_note_or_be_refused(text: str) -> None:
    """Whatever is typed: a value that is read the same again, or wrong use."""
    tag = value_or_refused(lambda: parse_tag(text))
    assert tag is None or parse_tag(tag) == tag
    note = value_or_refused(lambda: parse_text(text, "note"))
    assert note is None or parse_text(note, "note") == note
