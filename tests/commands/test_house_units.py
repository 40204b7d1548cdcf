"""A house of inches, pounds, gallons and Fahrenheit is spoken to in them, and stored as ever.

1 in = 25.4 mm, 1 lb = 453.59237 g, 1 US gallon = 3.785411784 L: NIST Special Publication 811
(2008), Guide for the Use of the International System of Units, Appendix B.
"""

import json
import re
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock

from colony.commands.cli.failures import run

DAY = date(2026, 3, 2)

AMERICAN = {
    "length_unit": "in",
    "mass_unit": "lb",
    "volume_unit": "gal",
    "temperature_unit": "F",
    "date_order": "mdy",
}

METRIC = re.compile(r"\d ?(mm|cm|g|kg|L|litres|C)\b")

ALLOWED = "(to 45 C, 113 F)"
"""The caution of a sting says both, for it is read in haste."""

SPOKEN = (
    ["pup", "ready"],
    ["pup", "forecast"],
    ["pup", "forecast", "L59-2"],
    ["pup", "measure", "L59-2", "8in", "50g", "--anyway"],
    ["pup", "measure", "L59-2", "6in", "--on", "3/1/2026"],
    ["animal", "list"],
    ["animal", "show", "Alma"],
    ["pairing", "pick", "Alma"],
    ["pairing", "plan"],
    ["litter", "show", "L58"],
    ["tank", "list"],
    ["tank", "outlook"],
    ["tank", "plan"],
    ["food", "log", "--since", "20d ago"],
    ["water", "plan"],
    ["water", "reserve"],
    ["water", "reserve", "--level", "100gal"],
    ["water", "changed", "south", "10gal"],
    ["water", "show", "south"],
    ["water", "test", "south", "temperature=65", "nitrite=3"],
    ["water", "trend", "south", "temperature"],
    ["water", "limit", "temperature", "--low", "75", "--high", "86", "--source", "our own"],
    ["water", "limits"],
    ["round"],
    ["round", "count", "N1", "3"],
    ["book", "check"],
    ["book", "history", "--limit", "8"],
)
"""What is said of a length, a mass, a volume or a temperature, in the order of a day."""


@pytest.fixture
def american(
    sample_of: Callable[[date], Path],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Path:
    """A copy of the sample colony whose house has set every unit."""
    path = tmp_path / "book.colony"
    path.write_bytes(sample_of(DAY).read_bytes())
    monkeypatch.setenv("COLONY_BOOK", str(path))
    stop_clock(monkeypatch, DAY)
    for key, value in AMERICAN.items():
        assert run(["book", "settings", key, value]) == 0
    capsys.readouterr()
    return path


def test_nothing_that_is_said_is_metric(american: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Lists, reasons, charts, warnings and the history are in the units of the house."""
    assert american.exists()
    for words in SPOKEN:
        assert run(words) == 0, words
        said = capsys.readouterr()
        lines = (said.out + said.err).replace(ALLOWED, "").splitlines()
        assert [line for line in lines if METRIC.search(line)] == [], words


def test_what_is_typed_is_stored_as_ever(
    american: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A bare number is in the unit of the house; JSON is in mm, g, C and ISO 8601."""
    assert american.exists()

    def asked(*words: str) -> Any:  # noqa: ANN401 - any JSON document
        assert run([*words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    measured = asked("pup", "measure", "L59-2", "6", "1", "--on", "3/1/2026")
    assert measured["disc_width_mm"] == round(6 * 25.4)
    assert measured["mass_g"] == round(453.59237)
    assert measured["measured_on"] == "2026-03-01"
    changed = asked("water", "changed", "south", "10")
    assert changed["litres"] == round(37.85411784)
    tested = asked("water", "test", "south", "temperature=77")
    values = tested["values"]
    assert [v["value"] for v in values if v["parameter"] == "temperature_c"] == [25]


def test_a_limit_of_the_temperature_is_typed_in_fahrenheit(
    american: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """77 and 86 F are 25 and 30 C."""
    assert american.exists()
    limit = ["water", "limit", "temperature", "--low", "77", "--high", "86", "--source", "our own"]
    assert run(limit) == 0
    assert "temperature_f of all: least 77, most 86." in capsys.readouterr().out
    assert run(["water", "limits", "--json"]) == 0
    lines = json.loads(capsys.readouterr().out)
    own = [line for line in lines if line["parameter"] == "temperature_c" and not line["species"]]
    assert [(line["low"], line["high"]) for line in own] == [(25, 30)]
