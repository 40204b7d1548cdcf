"""What many commands take: the book, a tag, a day."""

from typing import Annotated

import typer

from colony.commands.cli.completion import complete_tag
from colony.commands.cli.fields import argument
from colony.commands.cli.read import keep_named
from colony.notation.fields.field import ON, TAG_OF_ANIMAL

LARGEST = 1_000_000
"""The largest whole number that an option takes where nothing nearer bounds it."""

Book = Annotated[
    str | None,
    typer.Option(
        "--book",
        help="The book: a file or a PostgreSQL URL.",
        metavar="PATH_OR_URL",
        callback=keep_named,
    ),
]
Yes = Annotated[bool, typer.Option("--yes", help="Do it without asking.")]
Tag = Annotated[str, argument(TAG_OF_ANIMAL)]
Tags = Annotated[list[str], typer.Argument(help="Tags of animals.", autocompletion=complete_tag)]
Anyway = Annotated[
    bool, typer.Option("--anyway", help="Do it although something stands against it.")
]
On = Annotated[str, typer.Option(ON.switch, help=ON.help)]
