"""What `book check` advises is a command that works: each is run, and its finding is gone."""

import shlex

import pytest
from clock import stop_clock
from farm import TODAY, Farm

from colony.acts.book.check import check_book
from colony.acts.book.checks.finding import Finding
from colony.commands.cli.failures import run
from colony.commands.cli.remedies import command_of

FILLED = {
    "TAG": "Bruno",
    "TANK": "B2",
    "DAY": "2026-03-01",
    "REASON": "seen",
    "LENGTH": "40cm",
    "'F or M'": "F",
    "NUMBER": "2",
}
"""What the breeder says for each word that a command leaves open."""


@pytest.fixture
def odd(farm_file: Farm, monkeypatch: pytest.MonkeyPatch) -> Farm:
    """A farm of which several things are odd, each by an act that the book took."""
    farm = farm_file
    monkeypatch.setenv("COLONY_BOOK", str(farm.path))
    for code in ("B1", "B2"):
        farm.tank(code, size="900cm")
    farm.female("Alma")
    farm.male("Bruno")
    farm.male("Caro")
    farm.move("Alma", "Bruno", "Caro", tank="B1", on="400d ago", anyway=True)
    farm.litter("Alma", pups="2F1M", sires="Bruno", born="30d ago")
    farm.female("Dora", tank="B2")
    farm.pair("Dora", "Caro", on="20d ago")
    farm.female("Ella")
    farm.edit("Ella", transponder="999000000000001")
    return farm


def findings(farm: Farm) -> list[Finding]:
    """What is not accepted."""
    return [f for f in farm.ask(check_book, today=TODAY) if f.level != "accepted"]


def filled(command: str) -> list[str]:
    """The words of a command, with what the breeder would say in the open places."""
    words = shlex.split(command.removeprefix("colony "))
    return [FILLED.get(word, word) for word in words if word != "..."]


def test_each_advice_runs_and_its_finding_is_gone(
    odd: Farm, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """One finding after another, by the first command that each names, until none is left."""
    stop_clock(monkeypatch, TODAY)
    kinds = set()
    for _ in range(20):
        left = findings(odd)
        if not left:
            break
        first = left[0]
        kinds.add(first.check)
        for way in first.remedies if first.in_turn else first.remedies[:1]:
            command = command_of(way)
            assert run([*filled(command), *_anyway(command)]) == 0, (
                f"{command}: {capsys.readouterr().err}"
            )
        assert first not in findings(odd), f"{first} is still there after {command}"
    assert findings(odd) == []
    assert kinds >= {"sires", "pairing", "place"}


def _anyway(command: str) -> list[str]:
    return ["--anyway", "--why", "as book check says"] if "tank move" in command else []
