"""What many commands take: the book, JSON, a day; and how the tree of commands is made."""

from typing import Annotated, Any

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.fields import argument
from colony.notation.fields.field import ON, TAG_OF_ANIMAL

LARGEST = 1_000_000
"""The largest whole number that an option takes where nothing nearer bounds it."""

Book = Annotated[
    str | None,
    typer.Option("--book", help="The book: a file or a PostgreSQL URL.", metavar="PATH_OR_URL"),
]
AsJson = Annotated[bool, typer.Option("--json", help="One JSON document on stdout.")]
Yes = Annotated[bool, typer.Option("--yes", help="Do it without asking.")]
Tag = Annotated[str, argument(TAG_OF_ANIMAL)]
Tags = Annotated[list[str], typer.Argument(help="Tags of animals.", autocompletion=complete_tag)]
On = Annotated[str, typer.Option(ON.switch, help=ON.help)]


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
