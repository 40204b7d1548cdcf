"""The page for scripts names the keys that the documents have."""

import json
import re
import shlex
from pathlib import Path

import pytest
from test_examples import SampleDay

import colony.commands.read
from colony.commands.failures import run

PAGE = Path(__file__).parents[2] / "docs" / "scripting.md"
ROW = re.compile(r"^\| `colony (.+?)` \| (list|one) \| (.+?) \|$", re.MULTILINE)


def test_every_document_has_the_keys_that_the_page_names(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """In one book of the sample colony, command after command."""
    monkeypatch.setattr(colony.commands.read, "date", SampleDay)
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "sample.colony"))
    assert run(["sample", str(tmp_path / "sample.colony")]) == 0
    rows = ROW.findall(PAGE.read_text("utf-8"))
    assert len(rows) == 21
    for command, answer, keys in rows:
        capsys.readouterr()
        assert run([*shlex.split(command), "--json"]) == 0, command
        document = json.loads(capsys.readouterr().out)
        assert isinstance(document, list) == (answer == "list"), command
        one = document[0] if answer == "list" else document
        assert ", ".join(one) == keys, command
