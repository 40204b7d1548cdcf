"""Every slip at the command line: one sentence, one exit code, nothing written."""

from collections.abc import Iterator
from pathlib import Path

import pytest
import typer
from clock import stop_clock
from examples import every_refusal
from farm import TODAY, Farm
from slips import SLIPS, slippery_farm

from colony.commands.cli.failures import run
from colony.commands.cli.remedies import sentence_of
from colony.commands.cli.untyped import take_as_typed
from colony.commands.tree import app
from colony.refusals.base import Refusal


@pytest.fixture(scope="module")
def slippery(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Farm]:
    """The house of all slips, in the folder in which the words are typed."""
    folder = tmp_path_factory.mktemp("slips")
    farm = slippery_farm(folder / "farm.colony")
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        patch.setenv("COLONY_BOOK", "farm.colony")
        stop_clock(patch, TODAY)
        yield farm


def refusal_of(words: list[str]) -> Refusal:
    """What the words are refused with, before it is written out."""
    command = take_as_typed(typer.main.get_command(app))
    with pytest.raises(Refusal) as caught:
        command.main(args=words, prog_name="colony", standalone_mode=False)
    return caught.value


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_one_sentence_on_stderr(
    slippery: Farm, name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """That refusal and no other, its sentence alone on stderr, its exit code, and no row changed."""
    before = slippery.written()
    files = sorted(path.name for path in slippery.path.parent.iterdir())
    code = run(SLIPS[name])
    out, err = capsys.readouterr()
    if name != "UnreadableWord":
        refusal = refusal_of(SLIPS[name])
        assert type(refusal).__name__ == name
        assert (code, err) == (refusal.exit_code, f"colony: {sentence_of(refusal)}\n")
    assert out == ""
    assert err.startswith("colony: ")
    assert err.rstrip("\n").isprintable()
    assert slippery.written() == before
    assert sorted(path.name for path in slippery.path.parent.iterdir()) == files


def test_every_refusal_of_the_three_acts_has_its_slip() -> None:
    """A new refusal of animals, litters, pairings, pups' tanks or notation gets its case here."""
    rooms = ("animals", "litters", "pairings", "tanks", "notation", "health")
    known = {
        kind.__name__ for kind in every_refusal() if kind.__module__.rpartition(".")[2] in rooms
    }
    assert known - SLIPS.keys() == ELSEWHERE


ELSEWHERE = {
    *("CannotBePaired", "PairsDoNotFit", "NothingToAccept", "NothingToCompare", "NoSuchKind"),
    *("KindTwice", "LeavesIsolationEarly", "SiresPassOver", "NoPupHere"),
    *("LookOverOfWhom", "NobodySeenByVet", "WellAndSick", "NotDead", "NothingToSurvive"),
    *("UnreadablePair", "UnreadableWanted", "NotATraitNumber"),
    *(
        "CannotBePaired",
        "KindTwice",
        "LeavesIsolationEarly",
        "NoSuchKind",
        "NothingToAccept",
        "NothingToCompare",
        "PairsDoNotFit",
    ),
}
"""Refusals whose case stands in the tests of another subject."""


def test_the_path_of_a_book_is_told_whole(tmp_path: Path) -> None:
    """A long path is not cut before the name that was mistyped."""
    path = tmp_path / ("x" * 120) / "mistyped.colony"
    assert "mistyped.colony" in refusal_of(["animal", "list", "--book", str(path)]).sentence
