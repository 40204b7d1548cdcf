"""Write the pages that the program itself knows: `python docs/generate.py`.

`docs/commands.md` is what `--help` says of every command.
"""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import typer

from colony.commands.tree import SUBJECTS, app

DOCS = Path(__file__).parent
COLUMNS = 80


def command_page() -> str:
    """Every command of the program with its help, subject by subject."""
    os.environ["COLUMNS"] = str(COLUMNS)
    root = typer.main.get_command(app)
    context = root.make_context("colony", [], resilient_parsing=True)
    parts = ["# Commands", "", "Made from `--help` by `python docs/generate.py`.", ""]
    for name, (_, said) in SUBJECTS.items():
        subject: Any = root.get_command(context, name)  # type: ignore[attr-defined]
        parts += [f"## colony {name}", "", said, ""]
        for path, command in _verbs(f"colony {name}", subject, context):
            parts += [f"### {path}", "", "```text", _help(path, command, context), "```", ""]
    return "\n".join(parts)


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
