"""Write the pages that the program itself knows: `python docs/generate.py`.

`docs/commands.md` is what `--help` says of every command, `docs/refusals.md` what every refusal
says of facts made up for the example, `docs/data-model.md` what the records hold and hold to.
"""

import inspect
import os
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import typer

from colony.commands.cli.remedies import sentence_of
from colony.commands.tree import SUBJECTS, app

DOCS = Path(__file__).parent
sys.path[:0] = [str(DOCS), str(DOCS.parent / "tests" / "support")]

from data_model import data_model_page  # noqa: E402 - it stands beside this
from examples import every_refusal, example  # noqa: E402 - it stands with the tests

COLUMNS = 80


def command_page() -> str:
    """Every command of the program with its help, subject by subject."""
    os.environ["COLUMNS"] = str(COLUMNS)
    root = typer.main.get_command(app)
    context = root.make_context("colony", [], resilient_parsing=True)
    parts = ["# Commands", "", "Made from `--help` by `python docs/generate.py`.", ""]
    for name, each in SUBJECTS.items():
        subject: Any = root.get_command(context, name)  # type: ignore[attr-defined]
        parts += [f"## colony {name}", "", each.about, ""]
        for path, command in _verbs(f"colony {name}", subject, context):
            parts += [f"### {path}", "", "```text", _help(path, command, context), "```", ""]
    return "\n".join(parts)


def refusal_page() -> str:
    """Every refusal, noun by noun: what it is about, its exit code, and what it says."""
    parts = [
        "# Refusals",
        "",
        "Every way in which the program says no: one sentence, nothing half-written. Exit code 2 is",
        "wrong use, 1 is refused or failed. The facts are made up. Made by `python docs/generate.py`.",
        "",
    ]
    noun = ""
    for kind in every_refusal():
        here = kind.__module__.rpartition(".")[2]
        if here != noun:
            noun = here
            parts += [
                "",
                f"## {noun.capitalize()}",
                "",
                "| when | exit | it says |",
                "| --- | --- | --- |",
            ]
        about = " ".join((inspect.getdoc(kind) or "").split())
        says = sentence_of(example(kind)).replace("|", "\\|")
        parts.append(f"| {about} | {kind.exit_code} | {says} |")
    return "\n".join([*parts, ""])


def _verbs(path: str, subject: Any, context: Any) -> Iterator[tuple[str, Any]]:  # noqa: ANN401 - typer keeps its classes private
    for name in subject.list_commands(context):
        verb = subject.get_command(context, name)
        if hasattr(verb, "list_commands"):
            yield from _verbs(f"{path} {name}", verb, context)
        else:
            yield f"{path} {name}", verb


def _help(path: str, command: Any, parent: Any) -> str:  # noqa: ANN401 - the same
    context = command.make_context(path, [], parent=None, resilient_parsing=True)
    context.obj = parent.obj
    text: str = command.get_help(context)
    return "\n".join(line.rstrip() for line in text.rstrip().splitlines())


if __name__ == "__main__":
    (DOCS / "commands.md").write_text(command_page(), "utf-8")
    (DOCS / "refusals.md").write_text(refusal_page(), "utf-8")
    (DOCS / "data-model.md").write_text(data_model_page(), "utf-8")
