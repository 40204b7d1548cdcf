"""What holds for every refusal, by whomever it was written."""

import inspect
import re

import pytest
from examples import every_refusal, example

from colony.refusals.base import Refusal, WrongUse
from colony.refusals.history import DoneAlready

SECOND_SENTENCE = re.compile(r"[a-z0-9)'][.!?] [A-Z]")


@pytest.mark.parametrize("kind", every_refusal(), ids=lambda kind: kind.__name__)
def test_a_refusal_is_one_printable_sentence_made_of_facts(kind: type[Refusal]) -> None:
    """One sentence, said whole, that ends; with the exit code of its kind."""
    refusal = example(kind)
    sentence = refusal.sentence
    assert str(refusal) == sentence
    assert sentence.isprintable()
    assert sentence.endswith((".", "?")), sentence
    assert not SECOND_SENTENCE.search(sentence), sentence
    assert "None" not in sentence, sentence
    done = kind is DoneAlready  # what was wanted is so
    assert refusal.exit_code == (2 if issubclass(kind, WrongUse) else 0 if done else 1)


@pytest.mark.parametrize("kind", every_refusal(), ids=lambda kind: kind.__name__)
def test_a_refusal_says_in_its_docstring_what_it_is_about(kind: type[Refusal]) -> None:
    """The page of all refusals is made of it."""
    assert inspect.getdoc(kind)
    assert "__doc__" in vars(kind)
