"""The page on scripting names every key that a reading command answers with, and no other."""

import json
import re
import shlex
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from checkout import ROOT
from clock import stop_clock
from test_examples import SampleDay

from colony.commands.cli.failures import run

PAGE = (ROOT / "docs" / "scripting.md").read_text("utf-8")


def documents() -> Iterator[tuple[str, str, set[str], set[str]]]:
    """Each section: its command, the words to run, its keys, and the keys inside them."""
    for section in re.split(r"^## ", PAGE, flags=re.MULTILINE)[1:]:
        command = section.partition("\n")[0]
        words = re.search(rf"^`({command}[^`]*)`\.$", section, flags=re.MULTILINE)
        rows = re.findall(r"^\| (`.*?) \| (.*?) \|$", section, flags=re.MULTILINE)
        keys = {key for cell, _ in rows for key in re.findall(r"`(\w+)`", cell)}
        inside = {key for _, cell in rows for key in re.findall(r"`(\w+)`", cell)}
        yield command, words[1] if words else command, keys, inside


DOCUMENTS = list(documents())


@pytest.fixture(scope="module", autouse=True)
def sample(
    sample_of: Callable[[date], Path], tmp_path_factory: pytest.TempPathFactory
) -> Iterator[None]:
    """The sample colony as of its own day, and keys of its own."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLONY_KEYS", str(tmp_path_factory.mktemp("keys")))
        patch.setenv("COLONY_BOOK", str(sample_of(SampleDay.today())))
        stop_clock(patch, SampleDay.today())
        yield


@pytest.mark.parametrize(("command", "words", "keys", "inside"), DOCUMENTS)
def test_the_keys_of_a_document_are_those_that_are_answered(
    command: str,
    words: str,
    keys: set[str],
    inside: set[str],
    capsys: pytest.CaptureFixture[str],
) -> None:
    """All of them and no more; keys inside them are named where they are."""
    assert run([*shlex.split(words)[1:], "--json"]) == 0, command
    document: Any = json.loads(capsys.readouterr().out)
    first = document[0] if isinstance(document, list) else document
    assert set(first) == keys
    nested = {key for value in first.values() for key in _keys(value)}
    if command != "colony":
        assert nested <= inside


def test_every_document_is_tried() -> None:
    """A heading that is no command would be passed over in silence."""
    assert len(DOCUMENTS) == len(re.findall(r"^## colony", PAGE, flags=re.MULTILINE)) > 10


def _keys(value: Any) -> set[str]:  # noqa: ANN401 - a JSON value
    if isinstance(value, dict):
        return set(value)
    return {key for one in value for key in _keys(one)} if isinstance(value, list) else set()
