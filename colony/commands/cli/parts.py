"""How the tree of commands is made, and what its root takes; no field of the catalogue is loaded."""

from typing import Annotated, Any

import typer

AsJson = Annotated[bool, typer.Option("--json", help="One JSON document on stdout.")]


def plain_app(**more: Any) -> typer.Typer:  # noqa: ANN401 - whatever typer takes
    """A part of the tree: plain help, no markup, no traceback art."""
    return typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False, **more)


def subject(*, invoke_without_command: bool = False) -> typer.Typer:
    """The verbs of one module; a subject without a verb shows its help, or does what it does alone."""
    return plain_app(
        no_args_is_help=not invoke_without_command,
        invoke_without_command=invoke_without_command,
        add_completion=False,
    )
