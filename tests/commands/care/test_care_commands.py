"""The commands of the day's care, from what is typed to what is said."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from colony.commands.cli.failures import run

SETUP = (
    "tank system S1 --volume 2000L",
    "tank system Q --volume 500L",
    "tank add A1 --system S1 --role breeding --length 240cm --width 120cm",
    "tank add A2 --system S1 --length 240cm --width 120cm",
    "tank add I1 --system Q --role intake --length 240cm --width 120cm",
    "animal add Alma --species leopoldi --sex F --tank A1",
    "animal add Nova --species motoro --sex F --tank I1",
)


class House:
    """A book that is typed into."""

    def __init__(self, location: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.location, self._capsys = location, capsys

    def type(self, words: str, *more: str) -> str:
        """Type a command that is done, and read what it says."""
        code, out, problem = self.try_(words, *more)
        assert code == 0, problem
        return out

    def try_(self, words: str, *more: str) -> tuple[int, str, str]:
        """Type a command; exit code, stdout and stderr."""
        self._capsys.readouterr()
        code = run([*words.split(), *more])
        said = self._capsys.readouterr()
        return code, said.out, said.err

    def read(self, words: str) -> Any:  # noqa: ANN401 - whatever the JSON holds
        """Type a command with --json and read the document."""
        return json.loads(self.type(f"{words} --json"))


@pytest.fixture
def house(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> House:
    """Two systems, a breeder and an arrival, all of it typed."""
    location = tmp_path / "typed.colony"
    monkeypatch.setenv("COLONY_BOOK", str(location))
    typed = House(location, capsys)
    for words in SETUP:
        typed.type(words)
    return typed


def test_the_round_is_begun_walked_and_ticked(house: House) -> None:
    """Begun, listed clean first, ticked by system, and what is left is shown."""
    assert "colony round begin" in house.type("round")
    house.type("round begin")
    lines = house.read("round")
    assert [line["system"] for line in lines] == sorted(
        (li["system"] for li in lines), reverse=True
    )
    assert set(lines[0]) == {
        "task", "place", "system", "water", "wanted", "done", "is_open", "due",
        "overdue_days", "last_done", "skipped", "caution", "written_by",
    }  # fmt: skip
    house.type("round done all S1 Q")
    assert {line["task"] for line in house.read("round") if line["is_open"]} == {
        "water test",
        "headcount",
        "feeding",
    }


def test_the_round_cautions_of_power_and_tools(house: House) -> None:
    """Where hands go into water, the caution stands beside the work."""
    house.type("round begin")
    said = house.type("round")
    assert "Power off" in said
    assert "nets and tools" in said


def test_a_skip_without_a_reason_is_wrong_use(house: House) -> None:
    """The reason is asked for by exit code 2, and nothing is written."""
    house.type("round begin")
    assert house.try_("round skip feeding A1")[0] == 2
    house.type("round skip feeding A1 --why", "to be shipped")
    (line,) = [o for o in house.read("round --all") if (o["task"], o["place"]) == ("feeding", "A1")]
    assert line["skipped"] == "to be shipped"


def test_a_mistyped_task_names_the_tasks(house: House) -> None:
    """Exit code 2, with the words that would be right."""
    code, _, problem = house.try_("round done fedding A1")
    assert code == 2
    assert "feeding" in problem


def test_a_tank_is_fed_and_the_answer_is_kept(house: House) -> None:
    """What was offered, from which batch, what was taken, in the log."""
    house.type("food add worms --protein 10")
    house.type("food batch worms B7 --expires", "in 30d")
    assert "worms, took all" in house.type("food give A1 worms 25g")
    (line,) = house.read("food log")
    assert (line["tank"], line["batch"], line["offered_g"], line["taken"]) == (
        "A1", "B7", 25, "all",
    )  # fmt: skip
    (food,) = house.read("food list")
    assert food["batches"][0]["expired"] is False


def test_water_is_planned_changed_and_tested(house: House) -> None:
    """A regime and a reserve make a plan; a change and a test are written and drawn."""
    house.type("water regime S1 --percent 25 --every 7")
    house.type("water reserve --volume 600L --refill 200L --level 600L")
    week = house.read("water plan")
    assert week["fits"] is True
    assert len(week["days"]) == 7
    assert sum(c["litres"] for day in week["days"] for c in day["changes"]) == 500
    assert "chlorine" in house.type("water changed S1 300L")
    assert house.read("water reserve")["level_l"] == 300
    _, _, warned = house.try_("water test S1 ph=6.8 nitrate=55")
    assert "nitrate_mg_l is 55" in warned
    assert "*" in house.type("water trend S1 nitrate")
    assert "OUTSIDE" in house.type("water show S1")


def test_a_plan_that_is_short_says_what_would_be_enough(house: House) -> None:
    """500 L for one change and 100 L in reach: short by exactly 400, in words and in numbers."""
    house.type("water regime S1 --percent 25 --every 30")
    house.type("water reserve --volume 100L --level 100L")
    said = house.type("water plan")
    assert "S1 400 L" in said
    assert "Enough would be" in said
    assert house.read("water plan")["short_l"] == {"S1": 400}


@pytest.mark.parametrize(
    ("words", "right"),
    [
        ("water test S1 ph", "NAME=NUMBER"),
        ("water test S1 ph=x", "NAME=NUMBER"),
        ("water test S1 ph=19", "between 2 and 12"),
        ("water test S1 colour=1", "nitrate_mg_l"),
        ("water regime S1", "--percent"),
        ("water limit ph --source own", "--low"),
        ("health look", "--tank"),
    ],
)
def test_what_cannot_be_read_is_said_in_one_sentence(house: House, words: str, right: str) -> None:
    """Exit code 2, one line, and in it what would be right."""
    code, out, problem = house.try_(words)
    assert (code, out) == (2, "")
    assert problem.count("\n") == 1
    assert right in problem


def test_isolation_is_left_early_only_with_a_reason(house: House) -> None:
    """--anyway alone is refused; with --why the move is made and listed."""
    code, _, problem = house.try_("tank move Nova A2 --anyway")
    assert code == 1
    assert "--why" in problem
    house.type("tank move Nova A2 --anyway --why", "heater broke")
    (left,) = house.read("isolation early")
    assert (left["tag"], left["why"]) == ("Nova", "heater broke")
    assert house.read("isolation list")["isolated"] == []


def test_health_is_written_and_read(house: House) -> None:
    """A sign, a vet's words and a death; the vet's caution stands where it matters."""
    assert "licensed vet" in house.type("health look Alma --sign thin")
    assert [one["tag"] for one in house.read("health watch")] == ["Alma"]
    house.type("health vet Example --why thin --animal Alma --prescribed", "word for word")
    assert house.read("health visits Alma")[0]["prescriptions"] == ["word for word"]
    house.type("animal end Alma died")
    assert house.read("health deaths")[0]["tag"] == "Alma"
    assert house.read("health death Alma")["vet_visits"][0]["vet"] == "Example"
    code, _, warned = house.try_("health death Alma")
    assert code == 0
    assert "still stings" in warned
    assert house.try_("health survival")[0] == 1


def test_survival_is_shown_by_group(house: House) -> None:
    """Two pups of one litter: a row for their dam, with an interval at each age."""
    house.type("animal add Bruno --species leopoldi --sex M --tank A1")
    house.type("litter record --dam Alma --sire Bruno --pups 1F1M --born", "40d ago")
    (line,) = house.read("health survival --by dam")
    assert (line["group"], line["born_live"]) == ("Alma", 2)
    assert line["at"][1]["share"] == 1.0
    assert "Kaplan-Meier" in house.type("health survival --by season")


LISTINGS = ("round", "food list", "isolation list", "health signs", "water limits")


@pytest.mark.usefixtures("house")
@pytest.mark.parametrize("words", LISTINGS)
def test_plain_listings_load_no_heavy_library(words: str) -> None:
    """A list of the care is there at once: no scipy, networkx, alembic or screens are loaded."""
    script = (
        "import sys; from colony.commands.cli.failures import run; code = run(sys.argv[1:]);"
        "print({'scipy', 'networkx', 'alembic', 'textual'} & set(sys.modules), file=sys.stderr);"
        "sys.exit(code)"
    )
    answer = subprocess.run(
        [sys.executable, "-c", script, *words.split()], capture_output=True, text=True, check=False
    )
    assert (answer.returncode, answer.stderr.strip()) == (0, "set()")
