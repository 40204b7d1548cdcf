"""The tree of commands: each subject is a module, loaded when it is called."""

import os
import shlex
from importlib import import_module
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from colony import __version__
from colony.commands.cli.options import AsJson, plain_app
from colony.commands.cli.untyped import take_as_typed
from colony.notation.tags import nearest_tags
from colony.refusals.books import NoSuchBook
from colony.refusals.notation import JsonAfterVerb, NoSuchSubject

SUBJECTS = {
    "animal": ("animals", "Who is who: add, show, list, edit, hold and end animals."),
    "pairing": (
        "pairings.pairings",
        "Who is with whom: pick partners, start and end, note mating signs.",
    ),
    "litter": ("litters", "Births: record one, see who is due."),
    "pup": ("pups.pups", "Growing out: measure, feed, see who is ready."),
    "tank": ("tanks.tanks", "Tanks and systems: who swims where, and moves."),
    "round": ("care.round", "The day's care: what is due where, in walking order."),
    "food": ("care.food", "Foods of the house, their batches, and the feeding of tanks."),
    "water": ("water.water", "Water: plan and record changes, tests, limits and the reserve."),
    "isolation": ("tanks.isolation", "Isolation of arrivals, and filters that are still maturing."),
    "health": ("health", "Health: look-overs, vet visits, who to watch, deaths and survival."),
    "pedigree": ("pedigree", "Inbreeding and kinship, and where they come from."),
    "species": ("species", "Life-history numbers and their sources."),
    "book": ("book.book", "The book itself: import, export, check, settings."),
}
"""Each subject: its module in `colony.commands`, and what `colony --help` says of it."""

BOOK_VARIABLE = "COLONY_BOOK"


class Subjects(TyperGroup):
    """The subjects by name; `--help` lists them without loading any."""

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401 - the same as below
        """Subjects in the order of a breeder's week, then the words without a verb."""
        return [*SUBJECTS, *super().list_commands(ctx)]

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ANN401 - typer keeps its classes private
        """Load the subject that was called."""
        if cmd_name not in SUBJECTS:
            return super().get_command(ctx, cmd_name)
        module = import_module(f"colony.commands.{SUBJECTS[cmd_name][0]}")
        subject = take_as_typed(typer.main.get_command(module.app))
        subject.name = cmd_name
        return subject

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:  # noqa: ANN401 - the same
        """Name the nearest subject for a mistyped one."""
        known = self.list_commands(ctx)
        if args and args[0] not in known and not args[0].startswith("-"):
            raise NoSuchSubject(args[0], nearest_tags(args[0], known) or known)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: Any, formatter: Any) -> None:  # noqa: ANN401, ARG002 - the same
        """List the subjects from their table."""
        words = [(name, self.commands[name].get_short_help_str()) for name in self.commands]
        with formatter.section("Subjects"):
            formatter.write_dl([(name, said) for name, (_, said) in SUBJECTS.items()] + words)


app = plain_app("The colony book: litters, pairings, and pups that are ready.", cls=Subjects)


@app.callback(invoke_without_command=True)
def colony(
    ctx: typer.Context,
    book: Annotated[
        str | None,
        typer.Option(help="The book: a file or a PostgreSQL URL.", metavar="PATH_OR_URL"),
    ] = None,
    *,
    as_json: AsJson = False,
    version: Annotated[bool, typer.Option("--version", help="Say which version this is.")] = False,
) -> None:
    """Keep the book of a stingray colony. Without a subject: the state of the day."""
    if book is not None:
        if "\0" in book:
            raise NoSuchBook(book)
        os.environ[BOOK_VARIABLE] = book
    if version:
        typer.echo(f"colony {__version__}")
        raise typer.Exit
    if ctx.invoked_subcommand is None:
        from colony.commands.book.day import show_day

        show_day(as_json=as_json)
    elif as_json:
        raise JsonAfterVerb(ctx.invoked_subcommand)


@app.command("sample")
def sample(
    path: Annotated[str, typer.Argument(help="A free path for the new book.")],
    *,
    as_json: AsJson = False,
) -> None:
    """Make a book of an invented colony, to try everything on."""
    from colony.acts.book.sample import make_sample_book
    from colony.commands.cli.output import say, show_json
    from colony.commands.cli.read import today

    made = make_sample_book(location=path, today=today())
    if as_json:
        show_json(made)
    else:
        say(f"The sample colony is in {made.path}. Try: colony --book {shlex.quote(made.path)}")
