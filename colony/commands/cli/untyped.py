"""Take text as it was typed, so that typer need not load pydantic to look at it.

`notation` reads what was typed; typer's own check of a text says nothing more and costs as
much time as all of `colony --help`.
"""

import os
from dataclasses import dataclass
from typing import Any

import typer

COMPLETING_VARIABLE = "_COLONY_COMPLETE"
_TEXTS = (str, str | None, list[str], list[str] | None)


@dataclass(frozen=True)
class AsTyped:
    """What typer asks for the value of one parameter: here the value itself."""

    def coerce(self, value: Any, param: Any, ctx: object) -> Any:  # noqa: ANN401, ARG002 - as typer calls it
        """The value; of a parameter that repeats, all of them."""
        if param.multiple or param.nargs == -1:
            return list(value or ())
        return value


def take_as_typed(command: Any) -> Any:  # noqa: ANN401 - typer keeps its classes private
    """Let texts and flags of a command, and of those under it, be taken as typed.

    While the shell asks for a completion nothing is checked at all.
    """
    completing = COMPLETING_VARIABLE in os.environ
    for param in command.get_params(typer.Context(command)):
        annotation = getattr(getattr(param, "type_descriptor", None), "annotation", None)
        _name_value(param)
        if completing or annotation in _TEXTS or getattr(param, "is_flag", False):
            param._runtime_param = AsTyped()  # noqa: SLF001 - typer has no public way to say this
    for under in getattr(command, "commands", {}).values():
        take_as_typed(under)
    return command


def _name_value(param: Any) -> None:  # noqa: ANN401 - the same
    """Let the help name a value by what it is: Python's types say nothing to a breeder."""
    word = max(param.opts, key=len)
    if not word.startswith("-"):
        param.display_type_rich = lambda ctx: ""  # noqa: ARG005 - as typer calls it
    elif param.metavar is None and not getattr(param, "is_flag", False):
        param.metavar = word.lstrip("-").replace("-", "_").upper()
