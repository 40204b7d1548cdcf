"""Whom to keep, at the command line."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from clock import stop_clock

from colony.commands.cli.failures import run


def test_whom_to_keep_is_answered_and_shown(
    sample_of: Callable[[date], Path],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The keys that scripts rely on; a table with the reasons for a person."""
    today = date(2026, 3, 2)
    monkeypatch.setenv("COLONY_BOOK", str(sample_of(today)))
    stop_clock(monkeypatch, today)
    assert run(["pup", "keep", "--slots", "3", "--json"]) == 0
    plan = json.loads(capsys.readouterr().out)
    assert set(plan) == {"keep", "mean_kinship", "proven"}
    assert plan["proven"]
    assert len(plan["keep"]) == 3
    assert all(pup["why"] for pup in plan["keep"])
    means = plan["mean_kinship"]
    assert set(means) == {"now", "kept", "without"}
    assert all(0 < value < 1 for value in means.values())
    assert run(["pup", "keep", "--slots", "1", "--species", "henlei"]) == 0
    assert "Nothing better is there." in capsys.readouterr().out
    assert run(["pup", "keep", "--species", "goldfish"]) == 1
