"""Tags, notes, transponders, and the words to choose from."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation import words
from colony.notation.tags import (
    LONGEST_TAG,
    LONGEST_TEXT,
    nearest_tags,
    parse_tag,
    parse_text,
    printable,
    tag_order,
)
from colony.notation.transponders import LARGEST_NATIONAL_ID, parse_transponder
from colony.notation.words import parse_word
from colony.refusals.notation import BadTag, BadTransponder, UnknownWord, UnprintableText

CHOICES = [
    *(words.SEXES, words.ORIGINS, words.STATUSES, words.ENDS, words.PRECISIONS),
    *(words.MATING_SIGNS, words.FINDINGS, words.METHODS, words.ROLES),
]


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


@pytest.mark.parametrize("text", ["999123456789012", "999 1234 5678 9012", "001.000-000 000001"])
def test_a_transponder_keeps_its_fifteen_digits(text: str) -> None:
    """Spaces and dashes of the reader's display are left out, leading zeros are not (ISO 11784)."""
    digits = parse_transponder(text)
    assert digits.isdigit()
    assert len(digits) == 15


@pytest.mark.parametrize(
    "text",
    [
        "",
        "12345",
        "99912345678901x",
        "9991234567890123",
        "000123456789012",
        "٩99123456789012",
        f"999{LARGEST_NATIONAL_ID + 1}",
    ],
)
def test_what_iso_11784_does_not_allow_is_refused(text: str) -> None:
    """15 digits, a country or maker code above 000, and 38 bits for the rest (ISO 11784:1996)."""
    with pytest.raises(BadTransponder):
        parse_transponder(text)


def test_the_largest_identification_of_38_bits_is_taken() -> None:
    """2**38 - 1 is the last national identification code (ISO 11784:1996)."""
    assert parse_transponder(f"999{LARGEST_NATIONAL_ID}") == "999274877906943"


@pytest.mark.parametrize("choices", CHOICES)
def test_each_word_is_read_whole_and_in_any_case(choices: tuple[str, ...]) -> None:
    """What the program shows can be typed."""
    for word in choices:
        assert parse_word(word.upper().replace(" ", "_"), choices, "word") == word


def test_the_beginning_of_a_word_is_enough_where_it_is_the_only_one() -> None:
    """Cop is copulation; co is copulation or courtship, and is refused."""
    assert parse_word("cop", words.MATING_SIGNS, "mating sign") == "copulation"
    with pytest.raises(UnknownWord, match="bite marks, copulation or courtship"):
        parse_word("co", words.MATING_SIGNS, "mating sign")


@pytest.mark.parametrize(
    ("said", "choices", "word"),
    [
        ("female", words.SEXES, "F"),
        ("bites", words.MATING_SIGNS, "bite marks"),
        ("gravid", words.FINDINGS, "pregnant"),
        ("quarantine", words.ROLES, "intake"),
        ("dead", words.ENDS, "died"),
    ],
)
def test_other_words_of_the_trade_are_understood(
    said: str, choices: tuple[str, ...], word: str
) -> None:
    """Gravid and pregnant, quarantine and intake: one thing each."""
    assert parse_word(said, choices, "word") == word


@given(st.text(max_size=15), st.sampled_from(CHOICES))
def test_no_text_does_anything_but_be_a_word_or_be_refused(
    text: str, choices: tuple[str, ...]
) -> None:
    """Whatever is typed as a word, tag, text or transponder: a value, or wrong use."""
    word = value_or_refused(lambda: parse_word(text, choices, "word"))
    assert word is None or word in choices
    tag = value_or_refused(lambda: parse_tag(text))
    assert tag is None or parse_tag(tag) == tag
    note = value_or_refused(lambda: parse_text(text, "note"))
    assert note is None or parse_text(note, "note") == note
    number = value_or_refused(lambda: parse_transponder(text))
    assert number is None or parse_transponder(number) == number


def test_tags_stand_in_the_order_in_which_a_person_counts() -> None:
    """G2 before G10, whatever the case; letters and figures may be mixed."""
    tags = ["g10", "G2", "S1", "26-10-2", "26-9-1", "N", ""]
    assert sorted(tags, key=tag_order) == ["", "26-9-1", "26-10-2", "G2", "g10", "N", "S1"]
