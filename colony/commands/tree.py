"""The tree of commands: each subject is a module, loaded when it is called."""

import os
import shlex
from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any

import typer
from typer.core import TyperGroup

from colony import __version__
from colony.commands.cli.misuse import JsonAfterVerb, NoSuchSubject
from colony.commands.cli.parts import AsJson, plain_app, subject
from colony.commands.cli.untyped import take_as_typed
from colony.notation.tags import nearest_tags
from colony.refusals.books import NoSuchBook

Parts = tuple[typer.Typer, ...]
"""The modules of one subject, each with its verbs."""


@dataclass(frozen=True)
class Subject:
    """One subject: what loads its modules, and what `colony --help` says of it."""

    load: Callable[[], Parts]
    about: str

    def group(self, name: str) -> Any:  # noqa: ANN401 - typer keeps its classes private
        """Load the subject and join the verbs of its modules."""
        parts = self.load()
        if len(parts) == 1:
            whole = parts[0]
        else:
            whole = subject()
            for part in parts:
                whole.add_typer(part)
        group: Any = take_as_typed(typer.main.get_command(whole))
        group.name, group.help = name, self.about
        return group


def _animal() -> Parts:
    from colony.commands import animals

    return (animals.app,)


def _pairing() -> Parts:
    from colony.commands.pairings import pairings, plan

    return pairings.app, plan.app


def _litter() -> Parts:
    from colony.commands import litters

    return (litters.app,)


def _pup() -> Parts:
    from colony.commands.pups import growth, keeping, pups

    return pups.app, growth.app, keeping.app


def _tank() -> Parts:
    from colony.commands.tanks import outlook, tanks

    return tanks.app, outlook.app


def _round() -> Parts:
    from colony.commands.care.round import app

    return (app,)


def _food() -> Parts:
    from colony.commands.care import food

    return (food.app,)


def _water() -> Parts:
    from colony.commands.water import water

    return (water.app,)


def _isolation() -> Parts:
    from colony.commands.tanks import isolation

    return (isolation.app,)


def _health() -> Parts:
    from colony.commands import health

    return (health.app,)


def _buyer() -> Parts:
    from colony.commands.orders import buyers

    return (buyers.app,)


def _order() -> Parts:
    from colony.commands.orders import handing, offers, orders

    return orders.app, handing.app, offers.app


def _money() -> Parts:
    from colony.commands.orders import money

    return (money.app,)


def _paper() -> Parts:
    from colony.commands.proofs import papers

    return (papers.app,)


def _proof() -> Parts:
    from colony.commands.proofs import origin

    return (origin.app,)


def _pedigree() -> Parts:
    from colony.commands import pedigree

    return (pedigree.app,)


def _species() -> Parts:
    from colony.commands import species

    return (species.app,)


def _book() -> Parts:
    from colony.commands.book import book, safety

    return book.app, safety.app


SUBJECTS = {
    "animal": Subject(_animal, "Who is who: add, show, list, edit, hold and end animals."),
    "pairing": Subject(
        _pairing, "Who is with whom: pick partners, start and end, note mating signs."
    ),
    "litter": Subject(_litter, "Births: record one, see who is due."),
    "pup": Subject(_pup, "Growing out: measure, feed, see who is ready."),
    "tank": Subject(_tank, "Tanks and systems: who swims where, and moves."),
    "round": Subject(_round, "The day's care: what is due where, in walking order."),
    "food": Subject(_food, "Foods of the house, their batches, and the feeding of tanks."),
    "water": Subject(_water, "Water: plan and record changes, tests, limits and the reserve."),
    "isolation": Subject(_isolation, "Isolation of arrivals, and filters that are still maturing."),
    "health": Subject(
        _health, "Health: look-overs, vet visits, who to watch, deaths and survival."
    ),
    "buyer": Subject(_buyer, "Buyers: who they are, how to reach them, their papers."),
    "order": Subject(_order, "Orders: sets to offer, what is kept for whom, shipping, promises."),
    "money": Subject(_money, "Prices, expenses, what came in and what is owed."),
    "paper": Subject(_paper, "Signed papers of animals, the key to give away, and checking one."),
    "proof": Subject(_proof, "Where animals are from, and which papers are missing."),
    "pedigree": Subject(_pedigree, "Inbreeding and kinship, and where they come from."),
    "species": Subject(_species, "Life-history numbers and their sources."),
    "book": Subject(_book, "The book itself: import, export, check, settings."),
}
"""Every subject by its name, in the order of a breeder's week."""

BOOK_VARIABLE = "COLONY_BOOK"


class Subjects(TyperGroup):
    """The subjects by name; `--help` lists them without loading any."""

    def list_commands(self, ctx: Any) -> list[str]:  # noqa: ANN401 - the same as below
        """The subjects, then the words without a verb."""
        return [*SUBJECTS, *super().list_commands(ctx)]

    def get_command(self, ctx: Any, cmd_name: str) -> Any:  # noqa: ANN401 - typer keeps its classes private
        """Load the subject that was called."""
        if cmd_name not in SUBJECTS:
            return super().get_command(ctx, cmd_name)
        return SUBJECTS[cmd_name].group(cmd_name)

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
            formatter.write_dl([(name, each.about) for name, each in SUBJECTS.items()] + words)


app = plain_app(help="The colony book: litters, pairings, and pups that are ready.", cls=Subjects)


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
