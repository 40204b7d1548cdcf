"""A user's text in a drawing."""

from hypothesis import given
from hypothesis import strategies as st

from colony.papers.plain_words import printable


@given(st.text())
def test_nothing_that_a_terminal_obeys_is_left_and_all_else_is(text: str) -> None:
    """Sign by sign: what can be printed stays in its place."""
    shown = printable(text)
    assert shown.isprintable()
    assert len(shown) == len(text)
    assert all(new in {old, "?"} for new, old in zip(shown, text, strict=True))
    assert text == shown or not text.isprintable()
