"""`litter record` warns of a male that was with the dam when she conceived and is not named."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock
from farm import TODAY, Farm

from colony.commands.cli.failures import run

Recorded = Callable[..., Any]


@pytest.fixture
def recorded(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Recorded:
    """Record a birth of today in a book by the command; the answer is its JSON."""
    stop_clock(monkeypatch, TODAY)

    def record(book: Path, dam: str, *words: str) -> Any:  # noqa: ANN401 - any JSON document
        birth = ["litter", "record", "--book", str(book), "--dam", dam, "--pups", "2F2M"]
        assert run([*birth, *words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return record


@pytest.fixture
def couple(farm_file: Farm) -> Farm:
    """Alma and Bruno in B1 for a year, paired 150 days ago; B2 is another tank.

    P. leopoldi carries 90 to 180 days (the species file names its sources), so that a litter
    of today was conceived 180 to 90 days ago, with or without a pairing on record.
    """
    farm = farm_file
    for code in ("B1", "B2"):
        farm.tank(code, size="900cm")
    farm.female("Alma")
    farm.male("Bruno")
    farm.move("Alma", "Bruno", tank="B1", on="365d ago", anyway=True)
    farm.pair("Alma", "Bruno", on="150d ago")
    return farm


def with_her(farm: Farm, tag: str, since: str, until: str | None = None, **facts: str) -> None:
    """A male in the dam's tank from a day on, and in another from a later day on."""
    farm.male(tag, **facts)
    farm.move(tag, tank="B1", on=since, anyway=True)
    if until:
        farm.move(tag, tank="B2", on=until, anyway=True)


def test_a_second_grown_male_is_named_with_his_tank_and_days(
    couple: Farm, recorded: Recorded
) -> None:
    """Both were there all the time: each has half of what an unknown sire leaves."""
    with_her(couple, "Caro", since="300d ago")
    answer = recorded(couple.path, "Alma")
    assert answer["sire_shares"] == ["Bruno=0.48", "Caro=0.47", "unknown=0.05"]
    (said,) = answer["warnings"]
    first, last = couple.day("180d ago"), couple.day("90d ago")
    assert f"Caro in B1 with her from {first} to {last}." in said
    assert "colony litter edit 26-01 --pups-may-differ" in said


def test_the_warning_stands_where_the_sire_was_named(couple: Farm, recorded: Recorded) -> None:
    """One who is sure says so by naming the sire, and is told all the same."""
    with_her(couple, "Caro", since="300d ago")
    (said,) = recorded(couple.path, "Alma", "--sire", "Bruno")["warnings"]
    assert said.startswith("Caro was in B1 with her")
    mend = "colony litter edit 26-01 --sire Bruno=0.48 --sire Caro=0.47 --sire unknown=0.05"
    assert mend in said


def test_a_male_who_is_among_the_sires_is_not_warned_of(couple: Farm, recorded: Recorded) -> None:
    """With a share of his own he is passed over by nothing."""
    with_her(couple, "Caro", since="300d ago")
    words = ("--sire", "Bruno=0.7", "--sire", "Caro=0.3")
    assert recorded(couple.path, "Alma", *words)["warnings"] == []


def test_a_sire_nobody_knows_does_not_stand_for_one_who_was_there(
    couple: Farm, recorded: Recorded
) -> None:
    """`unknown` is none of the animals in the book: both males of her tank are named."""
    with_her(couple, "Caro", since="300d ago")
    said = recorded(couple.path, "Alma", "--sire", "unknown")["warnings"]
    assert {warning.split()[0] for warning in said} == {"Bruno", "Caro"}


ALL = ("180d ago", "90d ago")


@pytest.mark.parametrize(
    ("stay", "days"),
    [
        pytest.param({"since": "80d ago"}, None, id="came after"),
        pytest.param({"since": "90d ago"}, None, id="came on the last, unlikely day"),
        pytest.param({"since": "110d ago"}, ("110d ago", "90d ago"), id="came within"),
        pytest.param({"since": "300d ago", "until": "180d ago"}, None, id="left before"),
        pytest.param(
            {"since": "300d ago", "until": "170d ago"}, ("180d ago", "171d ago"), id="left within"
        ),
        pytest.param({"since": "300d ago", "born": "2025-04-01"}, None, id="immature"),
        pytest.param({"since": "300d ago", "species": "motoro"}, None, id="another species"),
        pytest.param({"since": "300d ago", "sex": "F"}, None, id="a female"),
        pytest.param(
            {"since": "300d ago", "born": "2025-01", "mature_since": "100d ago"},
            ("100d ago", "90d ago"),
            id="claspers",
        ),
    ],
)
def test_he_is_warned_of_only_where_he_may_be_the_sire(
    couple: Farm, recorded: Recorded, stay: dict[str, str], days: tuple[str, str] | None
) -> None:
    """By the day he came or left, his age, his species and his sex; to the day."""
    with_her(couple, "Caro", **stay)
    said = recorded(couple.path, "Alma", "--sire", "Bruno")["warnings"]
    told = []
    if days:
        first, last = map(couple.day, days)
        span = f"on {first}" if first == last else f"from {first} to {last}"
        told = [f"Caro was in B1 with her {span}"]
    assert [warning.split(",")[0] for warning in said] == told


def test_males_who_are_gone_by_now_and_males_of_other_pairings_count(
    couple: Farm, recorded: Recorded
) -> None:
    """One died since; one was put to her, and no tank of his is on record."""
    with_her(couple, "Caro", since="300d ago")
    couple.end("Caro", on="20d ago")
    couple.male("Ivo")
    couple.write("UPDATE pairing SET ended = ?", str(couple.day("120d ago")))
    couple.pair("Alma", "Ivo", on="110d ago")
    said = recorded(couple.path, "Alma", "--sire", "Bruno")["warnings"]
    assert sorted((warning.split(",")[0] for warning in said), reverse=True) == [
        f"Ivo was paired with her from {couple.day('110d ago')} to {couple.day('90d ago')}",
        f"Caro was in B1 with her from {couple.day('180d ago')} to {couple.day('90d ago')}",
    ]


def test_a_birth_before_and_a_gravid_finding_close_the_days(
    couple: Farm, recorded: Recorded
) -> None:
    """Who left before her last birth, or came after she was found gravid, is not the sire."""
    with_her(couple, "Early", since="300d ago", until="160d ago")
    with_her(couple, "Late", since="100d ago")
    couple.litter("Alma", sires="Bruno", born="155d ago")
    couple.found("Alma", "pregnant", on="110d ago")
    assert recorded(couple.path, "Alma")["warnings"] == []


def test_a_short_gestation_looks_at_the_days_of_the_pairing(
    farm_file: Farm, recorded: Recorded
) -> None:
    """Born 85 days after she was put to a male, she conceived by another of those days."""
    farm = farm_file
    farm.tank("B1", size="900cm")
    farm.female("Alma")
    farm.male("Bruno")
    farm.male("Caro")
    farm.move("Alma", "Bruno", "Caro", tank="B1", on="85d ago", anyway=True)
    farm.pair("Alma", "Bruno", on="85d ago")
    said = recorded(farm.path, "Alma", "--sire", "Bruno")["warnings"]
    assert len(said) == 2
    assert said[1].startswith("Caro was in B1 with her")


def test_the_sample_colony_names_the_other_male_of_her_tank(
    sample_of: Callable[[date], Path],
    monkeypatch: pytest.MonkeyPatch,
    recorded: Recorded,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Kaya was with Bruno and with Caro: said in the JSON and on the terminal."""
    monkeypatch.setenv("COLONY_WHO", "keeper")
    book = sample_of(TODAY)
    answer = recorded(book, "Kaya")
    assert answer["sire_shares"] == ["Bruno=0.48", "Caro=0.47", "unknown=0.05"]
    said, nursery = answer["warnings"]
    assert "Caro in N1 with her from " in said
    assert "is kept for them" in nursery
    assert run(["book", "undo", "--book", str(book)]) == 0
    capsys.readouterr()
    monkeypatch.setenv("COLUMNS", "300")
    assert run(["litter", "record", "--book", str(book), "--dam", "Kaya", "--pups", "2F2M"]) == 0
    assert said in capsys.readouterr().err
