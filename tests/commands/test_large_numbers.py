"""A whole number of thirty digits, at any option that takes one, is refused in a sentence."""

from collections.abc import Iterator
from typing import Any

import pytest
import typer

from colony.commands.cli.failures import run
from colony.commands.tree import app

LONG = "9" * 30


def verbs(command: Any, words: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:  # noqa: ANN401 - typer keeps its classes private
    """Every verb with its words."""
    if not hasattr(command, "list_commands"):
        yield words, command
        return
    for name in command.list_commands(None):
        yield from verbs(command.get_command(None, name), (*words, name))


def numbers() -> Iterator[tuple[str, list[str]]]:
    """Each option or argument for a whole number, with a line that gives it thirty digits."""
    for words, verb in verbs(typer.main.get_command(app)):
        for param in verb.params:
            kind = getattr(getattr(param, "type_descriptor", None), "annotation", None)
            if kind is not int:
                continue
            is_option = param.opts[0].startswith("-")
            others = [
                LONG if other is param else "x"
                for other in verb.params
                if not other.opts[0].startswith("-") and (other.required or other is param)
            ]
            given = [param.opts[0], LONG, *others] if is_option else others
            yield f"{' '.join(words)} {param.opts[0]}", [*words, *given]


NAMES = {"book undo --act"}
"""An act is looked for by its number: `test_no_traceback` has what is said of one that is not."""

NUMBERS = {name: line for name, line in numbers() if name not in NAMES}


def test_the_options_for_whole_numbers_are_found() -> None:
    """Those that are known to be there are among them: the walk reaches every verb."""
    assert {"pairing plan --males-max", "litter record --dead", "book undo count"} <= set(NUMBERS)


@pytest.mark.parametrize("name", NUMBERS)
def test_thirty_digits_are_refused_by_the_bounds(
    name: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """Exit code 2, and a sentence that names the option and its largest number."""
    code = run(NUMBERS[name])
    out, err = capsys.readouterr()
    assert (code, out) == (2, "")
    assert err.startswith("colony: ")
    assert "should be less than or equal to" in err
    assert "C long" not in err
