"""Papers at the command line: what a buyer can check with nothing but the key."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from colony.commands.cli.failures import run
from colony.store.keys import FOLDER_VARIABLE


def test_a_paper_is_written_shown_and_verified(
    sample_of: Callable[[date], Path],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The contract of `paper key`, `paper pup` and `paper verify`."""
    monkeypatch.setenv(FOLDER_VARIABLE, str(tmp_path / "keys"))
    monkeypatch.setenv("COLONY_BOOK", str(sample_of(date(2026, 3, 2))))

    def say(*words: str, code: int = 0) -> str:
        assert run(list(words)) == code
        answer = capsys.readouterr()
        return answer.err if code else answer.out

    key = json.loads(say("paper", "key", "--json"))
    assert set(key) == {"key", "fingerprint"}
    assert key["key"] in say("paper", "key")
    path = str(tmp_path / "p.pdf")
    assert "Wrote" in say("paper", "pup", "L58-5", "-o", path)
    code = say("paper", "pup", "L58-5", "--code").removesuffix("\n")
    assert code.startswith("RAY1:")
    for what in (path, code):
        assert "Animal: L58-5" in say("paper", "verify", what, "--key", key["key"])
        document = json.loads(say("paper", "verify", what, "--key", key["key"], "--json"))
        assert (document["signer"], document["facts"]["tag"]) == ("trusted", "L58-5")
    monkeypatch.setenv(FOLDER_VARIABLE, str(tmp_path / "other"))
    monkeypatch.delenv("COLONY_BOOK")
    assert "unproven signer" in say("paper", "verify", path)
    other = json.loads(say("paper", "key", "--json"))["key"]
    assert "not of the breeder" in say("paper", "verify", path, "--key", other, code=1)
    assert "is no key" in say("paper", "verify", path, "--key", "abc", code=2)
    altered = code.replace("RAY1:", "RAY1:0", 1)
    assert say("paper", "verify", altered, "--key", key["key"], code=1).count("\n") == 1
    assert "no picture or PDF" in say("paper", "verify", "nowhere.pdf", code=1)
    assert json.loads(say("paper", "key", "--renew", "--json"))["key"] != other
