"""`litter due`, `pup ready`, `pup forecast` and the tank commands as a script and a person see them."""

import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from clock import stop_clock

from colony.commands.cli.failures import run
from colony.commands.tanks.outlook import _show_plan
from colony.planning.tanks.moves import WeekPlan
from colony.planning.tanks.plan import HousingPlan
from colony.planning.tanks.remedies import ExtraTank, Remedy

DAY = date(2026, 3, 2)
Asked = Callable[..., Any]


@pytest.fixture(scope="module")
def sample(sample_of: Callable[[date], Path]) -> Path:
    """The sample colony, made once."""
    return sample_of(DAY)


@pytest.fixture
def book(sample: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of it that commands use, on its own day, 80 columns wide."""
    path = tmp_path / "book.colony"
    path.write_bytes(sample.read_bytes())
    monkeypatch.setenv("COLONY_BOOK", str(path))
    monkeypatch.setenv("COLUMNS", "80")
    stop_clock(monkeypatch, DAY)
    return path


@pytest.fixture
def asked(book: Path, capsys: pytest.CaptureFixture[str]) -> Asked:
    """Run a command that answers in JSON."""
    assert book.exists()

    def ask(*words: str) -> Any:  # noqa: ANN401 - any JSON document
        assert run([*words, "--json"]) == 0
        return json.loads(capsys.readouterr().out)

    return ask


@pytest.fixture
def printed(book: Path, capsys: pytest.CaptureFixture[str]) -> Callable[..., str]:
    """Run a command that answers a person: its sentences, and tables of at most 80 columns."""
    assert book.exists()

    def run_command(*words: str) -> str:
        assert run(list(words)) == 0
        answer = capsys.readouterr()
        drawn = [line for line in answer.out.splitlines() if not line.endswith(".")]
        assert max(map(len, drawn), default=0) <= 80
        return answer.out + answer.err

    return run_command


def test_due_keeps_its_contract_and_names_the_nursery(asked: Asked, printed: Asked) -> None:
    """A list with the agreed keys; each warning stands once, whoever shares it."""
    due = asked("litter", "due")
    keys = {"dam", "sires", "earliest", "likely", "latest", "nursery", "nursery_tank", "warnings"}
    assert due
    assert all(litter.keys() >= keys for litter in due)
    assert all(bool(litter["nursery_tank"]) == (litter["state"] != "possible") for litter in due)
    shown = printed("litter", "due")
    warnings = {words for litter in due for words in litter["warnings"]}
    assert warnings
    assert all(shown.count(words) == 1 for words in warnings)


def test_ready_is_a_list_in_its_plain_form(asked: Asked) -> None:
    """The contract of scripts: a list of pups, gates by name."""
    (first, *others) = asked("pup", "ready", "--all")
    assert others
    keys = {"tag", "age_days", "disc_width_mm", "ready", "gates"}
    assert first.keys() >= keys | {"expected_ready", "ready_low", "ready_high"}
    assert set(first["gates"].values()) <= {True, False}
    assert "not_held_back" in first["gates"]
    assert all(pup["ready"] for pup in asked("pup", "ready"))


def test_ready_by_group_holds_each_pup_once(asked: Asked, printed: Asked) -> None:
    """Grouped, they are the same pups; a heading each for a person, words instead of names."""
    plain = {pup["tag"] for pup in asked("pup", "ready", "--all")}
    for group in ("litter", "tank", "species"):
        groups = asked("pup", "ready", "--all", "--by", group)
        tags = [pup["tag"] for pups in groups.values() for pup in pups]
        assert sorted(tags) == sorted(plain)
        assert all(pup[group] == name for name, pups in groups.items() for pup in pups)
    shown = printed("pup", "ready", "--all", "--by", "tank")
    assert "Tank G3: 2 of 3 ready" in shown
    assert "kept to breed" in shown
    assert "_" not in shown


def test_a_wrong_group_is_wrong_use(book: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The right ones are named."""
    assert book.exists()
    assert run(["pup", "ready", "--by", "mood"]) == 2
    assert "litter, tank or species" in capsys.readouterr().err


def test_the_coming_weeks_add_up(asked: Asked, printed: Asked) -> None:
    """Twelve weeks; what a week counts is what its kinds add up to; those ready come first."""
    weeks = asked("pup", "ready", "--coming")
    assert len(weeks) == 12
    assert all(week["pups"] == sum(kind["pups"] for kind in week["counts"]) for week in weeks)
    assert weeks[0]["begins"] == str(DAY)
    assert weeks[0]["pups"] >= len(asked("pup", "ready"))
    assert str(DAY) in printed("pup", "ready", "--coming")


def test_a_forecast_is_drawn_told_and_written(asked: Asked, printed: Asked, tmp_path: Path) -> None:
    """JSON with the agreed keys; a curve for a person; an SVG file that is not replaced unasked."""
    answer = asked("pup", "forecast", "L69-5", "--weeks", "8")
    assert set(answer) == {
        *("tag", "litter", "measured", "doubtful", "forecast"),
        *("expected_ready", "ready_low", "ready_high", "off_curve"),
    }
    assert len(answer["forecast"]) == 9
    assert set(answer["forecast"][0]) == {"on", "disc_width_mm", "low_mm", "high_mm"}
    path = tmp_path / "curve.svg"
    shown = printed("pup", "forecast", "l69-5", "-o", str(path))
    assert "litter-mates" in shown
    assert "in 4 of 5 cases" in shown
    first = path.read_text("utf-8")
    assert first.startswith("<svg")
    assert run(["pup", "forecast", "L69-4", "-o", str(path)]) == 1
    assert path.read_text("utf-8") == first
    assert run(["pup", "forecast", "L69-4", "-o", str(path), "--yes"]) == 0
    assert path.read_text("utf-8") != first


def test_without_a_tag_those_off_their_curve_are_listed(asked: Asked, printed: Asked) -> None:
    """Nobody in the sample; a pup that shrank is, with the reason."""
    assert asked("pup", "forecast") == []
    assert "on its curve" in printed("pup", "forecast")
    printed("pup", "measure", "L61-2", "12cm", "--anyway")
    (off,) = asked("pup", "forecast")
    assert (off["tag"], off["kind"]) == ("L61-2", "shrank")
    assert "measure it again" in printed()


def test_the_outlook_is_one_line_a_tank(asked: Asked, printed: Asked) -> None:
    """A week is a sign; the load of every week and each first broken limit in JSON."""
    tanks = asked("tank", "outlook", "--weeks", "6")
    assert len(tanks) == 45
    assert all(len(tank["loads"]) == len(tank["animals"]) == 7 for tank in tanks)
    broken = {tank["tank"]: tank["breaks"] for tank in tanks if tank["breaks"]}
    assert broken["S1"][0].keys() == {"day", "rule", "why"}
    shown = printed("tank", "outlook", "--weeks", "6")
    assert "!!!!!!!" in shown
    assert shown.count("S1 would be loaded") == 1


def test_a_plan_is_proposed_accepted_done_and_undone(asked: Asked, printed: Asked) -> None:
    """Snake-case JSON; litter-mates in one row, a reason once; the caution; a move ticks itself off."""
    printed("book", "settings", "load_limit", "0.11")
    planned = asked("tank", "plan")
    assert not planned["accepted"]
    week = planned["weeks"][0]
    assert week.keys() >= {"begins", "moves", "optimal", "gap", "impossible", "remedy", "stuck"}
    moves = week["moves"]
    assert moves
    assert moves[0].keys() >= {"tag", "from_tank", "to_tank", "by", "why"}
    assert "Nothing" in printed("tank", "work")
    shown = printed("tank", "plan", "--accept")
    assert shown.count("Stings: a rigid container") == 1
    assert all(shown.count(f"{why}.") == 1 for why in {move["why"] for move in moves})
    work = asked("tank", "work")
    assert {move["tag"] for move in work} == {move["tag"] for move in moves}
    assert "Stings: a rigid container" in printed("tank", "work")
    printed("tank", "move", work[0]["tag"], work[0]["to_tank"])
    assert work[0]["tag"] not in {task["tag"] for task in asked("tank", "work")}
    printed("book", "undo")
    assert asked("tank", "work") == work
    printed("tank", "work", "--drop", work[0]["tag"])
    assert len(asked("tank", "work")) == len(work) - 1


def test_a_plan_without_a_move_accepts_nothing(asked: Asked, printed: Asked) -> None:
    """No act is written: there is nothing to undo."""
    assert "no move to accept" in printed("tank", "plan", "--weeks", "1", "--accept")
    assert asked("tank", "work") == []
    assert not asked("tank", "plan", "--weeks", "1", "--accept")["accepted"]


def test_what_is_not_proved_is_not_said_to_be(capsys: pytest.CaptureFixture[str]) -> None:
    """None found is not none exists; what would be enough is named."""
    remedy = Remedy(DAY, ("L1-1", "L1-2"), 1, ExtraTank(1200, 600))
    for impossible, words in ((False, "none found"), (True, "proved")):
        week = WeekPlan(DAY, (), optimal=False, gap=0.5, impossible=impossible, remedy=remedy)
        _show_plan(HousingPlan((week,)))
        shown = capsys.readouterr().err
        assert words in shown
        assert ("proved" in shown) == impossible
        assert "sell L1-1, L1-2 by 2026-03-02, or one more tank of 120 x 60 cm" in shown


def test_the_day_says_what_is_off_and_what_will_overflow(printed: Asked, asked: Asked) -> None:
    """A pup that shrank and a tank a hair under its limit are lines of the morning."""
    assert "measure it again" not in printed()
    printed("pup", "measure", "L61-2", "12cm", "--anyway")
    load = next(tank for tank in asked("tank", "list") if tank["tank"] == "P4")["load"]
    printed("book", "settings", "load_limit", f"{load + 0.001:.4f}")
    shown = printed()
    assert "L61-2 measured 12 cm" in shown
    assert "By 2026-03-16: P4 would be loaded" in shown
