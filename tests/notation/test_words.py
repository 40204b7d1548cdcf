"""The words to choose from."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from typed import value_or_refused

from colony.notation import words
from colony.notation.words import parse_word
from colony.refusals.notation import UnknownWord

CHOICES = [
    *(words.SEXES, words.ORIGINS, words.STATUSES, words.ENDS, words.PRECISIONS),
    *(words.MATING_SIGNS, words.FINDINGS, words.METHODS, words.ROLES),
]


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
    """Whatever is typed: one of the words, or wrong use."""
    word = value_or_refused(lambda: parse_word(text, choices, "word"))
    assert word is None or word in choices
