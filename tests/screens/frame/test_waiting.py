"""The screens do not stand still behind somebody else's act: they say so, and keep what was typed."""

import time
from typing import Any

import pytest
from safety_house import TODAY, furnished

from colony.acts.animals.animals import edit_animal
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.books import BookBusy
from colony.screens.frame.session import PATIENCE_SECONDS, BookSession
from colony.store.book import Book
from colony.store.engine import turn


def test_an_act_that_cannot_have_its_turn_is_told_after_a_second(book: Book) -> None:
    """Long before the half minute that a command waits; nothing is written."""
    furnished(book)
    session = BookSession(book, clock=lambda: TODAY)
    facts: dict[str, Any] = {"tag": "Alma", "facts": AnimalFacts(note="later"), "today": TODAY}
    began = time.monotonic()
    with turn(book.engine), pytest.raises(BookBusy, match="try again"):
        session.act("animal edit", edit_animal, **facts)
    assert PATIENCE_SECONDS <= time.monotonic() - began < 10
    session.act("animal edit", edit_animal, **facts)
