"""What would put it right is data of a refusal, and each face words it."""

import inspect
import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import typer
from examples import every_refusal, example

from colony.commands.cli import remedies
from colony.commands.cli.remedies import ARGUMENTS, VALUES, command_of, sentence_of
from colony.commands.cli.untyped import take_as_typed
from colony.commands.tree import app
from colony.refusals.animals import (
    AlreadyEnded,
    AnywayNeedsWhy,
    HardlyMeant,
    NoSuchTag,
    StandsAgainst,
)
from colony.refusals.base import Again, AnotherAct, Refusal, act, again, in_ways
from colony.refusals.litters import LitterKnows, SiresPassOver
from colony.refusals.pairings import PairedAlready
from colony.refusals.tanks import LeavesIsolationEarly, TankDoesNotFit
from colony.screens.forms.table import FORM_OF
from colony.screens.frame import outcome

ROOT = Path(inspect.getfile(remedies)).parents[2]
FACELESS = (
    "refusals",
    "notation",
    "pedigree",
    "planning",
    "records",
    "store",
    "exchange",
    "papers",
    "acts",
)
COMMAND = re.compile(r"colony (" + "|".join(map(re.escape, ARGUMENTS)) + r")\b")
DAY = date(2026, 3, 9)
OPTION = re.compile(r"[ (\"]--[a-z]")


def own_refusals() -> list[type[Refusal]]:
    """All but those of the command line itself."""
    return [kind for kind in every_refusal() if kind.__module__.startswith("colony.refusals")]


def command(name: str) -> Any:  # noqa: ANN401 - typer keeps its classes private
    """The command of an act in the tree."""
    found: Any = take_as_typed(typer.main.get_command(app))
    context = found.make_context("colony", [], resilient_parsing=True)
    for word in name.split():
        found = found.get_command(context, word)
        assert found is not None, name
    return found


@pytest.mark.parametrize("kind", own_refusals(), ids=lambda kind: kind.__name__)
def test_a_refusal_speaks_no_face(kind: type[Refusal]) -> None:
    """Its sentence names no command, no option and no key: what helps is data."""
    sentence = example(kind).sentence
    assert not COMMAND.search(sentence), sentence
    assert not OPTION.search(sentence), sentence
    assert "press" not in sentence, sentence


@pytest.mark.parametrize("name", ARGUMENTS)
def test_the_command_of_every_remedy_is_one_of_the_tree(name: str) -> None:
    """A command that was renamed would send the breeder nowhere."""
    arguments = [each for each in command(name).params if each.param_type_name == "argument"]
    needed = [each for each in arguments if each.required]
    several = any(each.nargs == -1 for each in arguments)
    given = len(ARGUMENTS[name])
    assert len(needed) <= given or several
    assert given <= len(arguments) or several


@pytest.mark.parametrize("kind", own_refusals(), ids=lambda kind: kind.__name__)
def test_a_remedy_names_an_act_and_options_that_it_has(kind: type[Refusal]) -> None:
    """What is typed as it stands is understood, apart from the words to fill in."""
    for remedy in example(kind).remedies:
        for name, value in remedy.facts:
            assert value or name in VALUES
        if isinstance(remedy, AnotherAct):
            options = {word for each in command(remedy.name).params for word in each.opts}
            for name, _ in remedy.facts:
                assert f"--{name.replace('_', '-')}" in options


def test_no_floor_below_the_faces_writes_a_command() -> None:
    """Neither a warning nor a finding does: only the faces turn a remedy into words."""
    lines = [
        f"{path.relative_to(ROOT)}: {line.strip()}"
        for floor in FACELESS
        for path in sorted((ROOT / floor).rglob("*.py"))
        for line in path.read_text("utf-8").splitlines()
        if COMMAND.search(line) and "`" not in line
    ]
    assert lines == []


def test_a_command_has_its_facts_as_options() -> None:
    """A text is quoted for the shell, a mark only named, an unknown value a word to fill in."""
    assert command_of(act("animal edit", "A 1", back=True)) == "colony animal edit 'A 1' --back"
    assert command_of(act("pairing start", "Alma")) == "colony pairing start Alma SIRE"
    assert command_of(act("book undo", act="")) == "colony book undo --act NUMBER"


def test_each_face_words_a_remedy_in_its_own_way() -> None:
    """The command line says what to type, the screens what to press."""
    for refusal, typed, pressed in (
        (NoSuchTag("Q", []), "colony animal list", "press / to find it"),
        (TankDoesNotFit("A1", ["full"]), "repeat with --anyway", "press F2"),
        (
            LeavesIsolationEarly(["A"], DAY),
            "repeat with --anyway --why REASON",
            "write why, then press F2",
        ),
        (PairedAlready("A", DAY), "colony pairing end A", "press x for"),
        (LitterKnows("A-1", "A"), "colony litter edit A", "colony litter edit A"),
        (AlreadyEnded("A", "died", None), "colony animal edit A --back", "colony animal edit A"),
    ):
        assert sentence_of(refusal) == in_ways(refusal.sentence, [typed])
        assert pressed in outcome.sentence_of(refusal)


def test_only_what_may_be_overridden_says_so() -> None:
    """Limits of tanks, an early end of isolation and the guards: nothing else offers F2."""
    kinds = {kind for kind in own_refusals() if example(kind).overridable}
    assert kinds == {
        TankDoesNotFit,
        LeavesIsolationEarly,
        StandsAgainst,
        AnywayNeedsWhy,
        HardlyMeant,
        SiresPassOver,
    }


def test_a_remedy_that_the_form_shows_is_not_said_twice() -> None:
    """Facts to fill in are fields there; the sentence stays as it is."""
    assert outcome.words_of(again(volume="")) == ""
    assert outcome.words_of(Again((("anyway", True),))) == "press F2"


def test_the_key_of_a_form_comes_from_the_list_of_forms() -> None:
    """Where a form writes the act, its key and its title are said."""
    for name, form in FORM_OF.items():
        if form.key:
            assert outcome.words_of(act(name)) == f"press {form.key} for {form.title}"
