"""`pairing plan` and `pairing pick` as a person and a script see them, on the sample colony."""

import json
import sqlite3
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock
from farm import TODAY

from colony.commands.cli.failures import run
from colony.commands.pairings.plan_output import BECAUSE
from colony.planning.pairings.eligibility import RULES
from colony.planning.pairings.planner import plan_pairings

SCREENS = (80, 120)
"""Columns of a terminal."""


@pytest.fixture(scope="module")
def sample(sample_of: Callable[[date], Path]) -> bytes:
    """The sample colony of that day, as a file."""
    return sample_of(TODAY).read_bytes()


@pytest.fixture
def book(sample: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the sample colony that commands use."""
    path = tmp_path / "book.colony"
    path.write_bytes(sample)
    monkeypatch.setenv("COLONY_BOOK", str(path))
    monkeypatch.setenv("COLUMNS", "80")
    stop_clock(monkeypatch, TODAY)
    return path


Captured = pytest.CaptureFixture[str]


def asked(capsys: Captured, *words: str) -> dict[str, Any]:
    """The JSON document of a command that is done."""
    assert run([*words, "--json"]) == 0, capsys.readouterr().err
    document: dict[str, Any] = json.loads(capsys.readouterr().out)
    return document


def acts(book: Path) -> list[tuple[str, str]]:
    """Each act of the journal and what it tells."""
    with sqlite3.connect(book) as file:
        return file.execute("SELECT act, summary FROM journal ORDER BY id").fetchall()


@pytest.mark.usefixtures("book")
def test_the_document_keeps_its_contract(capsys: Captured) -> None:
    """The agreed keys with their types; everybody present is in a pair or left out with a reason."""
    plan = asked(capsys, "pairing", "plan")
    assert plan["optimal"] is True
    assert 0 <= plan["gap"] < 1e-3
    for pair in plan["pairs"]:
        assert pair.keys() >= {"dam", "sire", "expected_inbreeding"}
    mean = sum(pair["expected_inbreeding"] for pair in plan["pairs"]) / len(plan["pairs"])
    assert plan["mean_expected_inbreeding"] == pytest.approx(mean)
    assert (plan["comparison"], plan["futures"], plan["accepted"]) == (None, [], None)
    assert plan["next_gene_diversity"] == pytest.approx(1 - plan["next_mean_kinship"])
    used = {tag for pair in plan["pairs"] for tag in (pair["dam"], pair["sire"])}
    out = {animal["tag"]: animal["reasons"] for animal in plan["left_out"]}
    here = {animal["tag"] for animal in json.loads(_list(capsys))}
    assert used | out.keys() == here
    assert not used & out.keys()
    assert all(out.values())
    assert all(": " in reason for reasons in out.values() for reason in reasons)


def _list(capsys: Captured) -> str:
    assert run(["animal", "list", "--json"]) == 0
    return capsys.readouterr().out


def test_a_plan_that_is_not_accepted_changes_nothing(book: Path, capsys: Captured) -> None:
    """No row of the journal, and not a byte of the file."""
    before, told = book.read_bytes(), acts(book)
    asked(capsys, "pairing", "plan", "--tanks", "--ignore", "paired", "--generations", "1")
    assert run(["pairing", "plan", "--on", "3d ago"]) == 0
    assert acts(book) == told
    assert book.read_bytes() == before


def test_an_accepted_plan_runs_and_one_undo_takes_it_back(book: Path, capsys: Captured) -> None:
    """One act; its pairings run, its moves are listed; after undo neither is."""
    pairings, work = ("pairing", "list", "--json"), ("tank", "work", "--json")
    before = [_answer(capsys, *words) for words in (pairings, work)]
    plan = asked(capsys, "pairing", "plan", "--ignore", "paired", "--accept")
    done = plan["accepted"]
    running = {pairing["dam"]: pairing["sires"] for pairing in _answer(capsys, *pairings)}
    assert {dam: running[dam] for dam in done["started"]} == {
        pair["dam"]: [pair["sire"]] for pair in plan["pairs"] if pair["dam"] in done["started"]
    }
    assert set(done["kept"]) | set(done["started"]) == {pair["dam"] for pair in plan["pairs"]}
    assert done["ended"]
    assert {(move["tag"], move["to_tank"]) for move in _answer(capsys, *work)} == {
        (move["tag"], move["to_tank"]) for move in plan["moves"]
    }
    assert [act for act, _ in acts(book)].count("pairing plan") == 1
    assert run(["book", "undo", "--yes"]) == 0
    capsys.readouterr()
    assert [_answer(capsys, *words) for words in (pairings, work)] == before


def _answer(capsys: Captured, *words: str) -> Any:  # noqa: ANN401 - any document
    assert run(list(words)) == 0
    return json.loads(capsys.readouterr().out)


def test_nobody_writes_between_the_proposal_and_its_acceptance(
    book: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While an accepted plan is made the book is held, so it is of the book that it changes."""
    tried: list[str] = []

    def meddling(*facts: Any, **named: Any) -> Any:  # noqa: ANN401 - as the planner has it
        with sqlite3.connect(book, timeout=0) as other:
            try:
                other.execute("UPDATE animal SET breeding_ban = 'by another'")
            except sqlite3.OperationalError as refused:
                tried.append(str(refused))
        return plan_pairings(*facts, **named)

    monkeypatch.setattr("colony.acts.pairings.plan.plan_pairings", meddling)
    assert asked(capsys, "pairing", "plan", "--accept")["accepted"]["started"]
    assert tried == ["database is locked"]


@pytest.mark.usefixtures("book")
def test_a_what_if_is_compared_and_the_future_is_drawn(capsys: Captured) -> None:
    """Each figure with, without and its difference; two generations of three ways, by seed."""
    words = ["pairing", "plan", "--species", "leopoldi", "--without", "Hugo", "--ignore", "kin"]
    words += ["--compare", "--generations", "2"]
    first, again = (asked(capsys, *words, "--seed", "1") for _ in range(2))
    assert first["futures"] == again["futures"]
    assert first["futures"] != asked(capsys, *words, "--seed", "2")["futures"]
    assert [len(way["generations"]) for way in first["futures"]] == [2, 2, 2]
    figures = first["comparison"]["figures"]
    assert figures["objective"]["with"] == pytest.approx(first["objective"])
    assert figures["objective"]["difference"] >= -1e-9
    shared = first["comparison"]["in_both"] + first["comparison"]["only_with"]
    assert sorted(pair["dam"] for pair in shared) == [pair["dam"] for pair in first["pairs"]]


@pytest.mark.usefixtures("book")
@pytest.mark.parametrize("columns", SCREENS)
def test_the_plan_fits_the_terminal(
    capsys: Captured, monkeypatch: pytest.MonkeyPatch, columns: int
) -> None:
    """Neither the tables of a plan nor its sentences run over the edge."""
    monkeypatch.setenv("COLUMNS", str(columns))
    for words in (
        ["--tanks", "--worst", "--why"],
        ["--without", "Hugo", "--compare", "--generations", "1"],
        ["--ignore", "rest", "--ignore", "paired"],
    ):
        assert run(["pairing", "plan", *words]) == 0
        shown = capsys.readouterr()
        sentences = [line for line in shown.out.splitlines() if line.startswith("Only ")]
        lines = [line for line in shown.out.splitlines() if line not in sentences]
        assert max(map(len, lines)) <= columns


@pytest.mark.usefixtures("book")
def test_who_is_left_out_is_counted_by_rule_and_told_in_full_when_asked(capsys: Captured) -> None:
    """Every animal is counted once; --why has a line for each; --json names all always."""
    out = asked(capsys, "pairing", "plan")["left_out"]
    assert run(["pairing", "plan"]) == 0
    counted = capsys.readouterr().out
    for rule, why in BECAUSE.items():
        count = sum(animal["reasons"][0].startswith(f"{rule}:") for animal in out)
        line = next((line for line in counted.splitlines() if line.startswith(f"{rule} ")), "")
        assert bool(line) == bool(count)
        assert not line or (why[:12] in line and f" {count} " in line)
    assert run(["pairing", "plan", "--why"]) == 0
    told = capsys.readouterr().out
    assert all(animal["tag"] in told for animal in out)


def test_every_rule_has_its_words() -> None:
    """A rule that is added cannot vanish from the count of those left out."""
    assert BECAUSE.keys() >= RULES.keys()


WRONG = [
    (["--without", "Hugoo"], 1, "did you mean Hugo"),
    (["--with", "Lola"], 2, "such as Alma*Bruno"),
    (["--with", "Lola*Nobody"], 1, "There is no animal 'Nobody'"),
    (["--with", "Hugo*Lola"], 1, "a dam is a female and a sire a male"),
    (["--with", "Lola*Hugo", "--never", "Lola*Hugo"], 1, "kept apart"),
    (["--with", "Iris*Hugo"], 1, "Iris: not here: died"),
    (["--ignore", "luck"], 2, "There is no rule 'luck'"),
    (["--ignore", "rest:Nobody"], 1, "There is no animal 'Nobody'"),
    (["--wanted", "leopoldi"], 2, "write leopoldi=4"),
    (["--wanted", "leopoldii=4"], 1, "no species or line 'leopoldii'"),
    (["--wanted", "leopoldi=1", "--wanted", "leopoldi=2"], 2, "asked for twice"),
    (["--species", "leopoldii"], 1, "There is no species 'leopoldii'"),
    (["--compare"], 2, "--with PAIR, or --never PAIR, or --without TAG"),
    (["--max-f", "2"], 2, "'--max-f'"),
    (["--max-f", "nan"], 2, "'--max-f'"),
    (["--weight", "inf"], 2, "'--weight'"),
    (["--weight", "-1"], 2, "'--weight'"),
    (["--founders", "inf"], 2, "'--founders'"),
    (["--seconds", "0"], 2, "'--seconds'"),
    (["--litters", "-1"], 2, "'--litters'"),
    (["--litters", "some"], 2, "'--litters'"),
    (["--males-max", "0"], 2, "'--males-max'"),
    (["--generations", "99"], 2, "'--generations'"),
    (["--on", "soon"], 2, "'soon' is no date"),
    (["--accept", "--on", "in 2w"], 1, "in the future"),
    (["--accept", "--litters", "0"], 1, "Nothing is accepted"),
]


@pytest.mark.parametrize(("words", "code", "told"), WRONG)
def test_wrong_use_is_one_sentence_and_writes_nothing(
    book: Path, capsys: Captured, words: list[str], code: int, told: str
) -> None:
    """Exit 2 for what cannot be read, 1 for what cannot be; the book is as it was."""
    before = acts(book)
    assert run(["pairing", "plan", *words]) == code
    answer = capsys.readouterr()
    assert told in answer.err
    assert answer.err.count("\n") == 1
    assert answer.out == ""
    assert acts(book) == before


def test_a_plan_begins_no_book(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """A mistyped path is no reason to begin an empty book, not even with --accept."""
    monkeypatch.setenv("COLONY_BOOK", str(tmp_path / "none.colony"))
    for words in ([], ["--accept"]):
        assert run(["pairing", "plan", *words]) == 1
        assert "There is no book" in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.usefixtures("book")
def test_a_limit_that_leaves_nobody_is_answered(capsys: Captured) -> None:
    """No litter at all is an answer, with its reason, and no failure."""
    plan = asked(capsys, "pairing", "plan", "--species", "leopoldi", "--max-f", "0")
    assert plan["pairs"] == []
    assert plan["notes"]
    assert run(["pairing", "plan", "--species", "leopoldi", "--max-f", "0"]) == 0
    assert "The plan has no pair." in capsys.readouterr().out


@pytest.mark.usefixtures("book")
def test_pick_says_what_was_set_aside(capsys: Captured) -> None:
    """A cross that was asked for is named beside the partner; by default the column is not there."""
    assert run(["pairing", "pick", "Alma", "--limit", "3"]) == 0
    assert "Although" not in capsys.readouterr().out
    assert run(["pairing", "pick", "Alma", "--ignore", "line:gino", "--ignore", "kin"]) == 0
    shown = capsys.readouterr().out
    assert "Although" in shown
    assert "line: a cross of lines" in " ".join(shown.split())
    picked = asked(capsys, "pairing", "pick", "Alma")
    assert picked["partners"][0].keys() >= {"tag", "kinship", "expected_inbreeding", "mean_kinship"}
    assert all(animal["reasons"] for animal in picked["left_out"])
