"""How a command answers: a sentence, a table, or one JSON document."""

import dataclasses
import json
import sys
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from colony.notation.tags import printable

_LONG_WORD = 14
"""A column of words is not made narrower than its longest word, up to this."""

_WIDE = 200
"""Columns when nobody looks: a table in a pipe is not cut."""


def say(sentence: str) -> None:
    """Print one line on stdout, its control characters made inert."""
    sys.stdout.write("\n".join(printable(line) for line in sentence.split("\n")) + "\n")


def warn(sentences: Iterable[str]) -> None:
    """Print warnings on stderr, a line each."""
    for sentence in sentences:
        sys.stderr.write(f"! {printable(sentence)}\n")


def show_json(document: object) -> None:
    """Print one JSON document: snake_case keys, ISO dates, whole mm and g."""
    # In one piece: many times faster than written bit by bit as json.dump does.
    text = json.dumps(document, default=_plain, ensure_ascii=False, allow_nan=False)
    sys.stdout.write(f"{text}\n")


def show_table(columns: Sequence[str], rows: Iterable[Sequence[object]], *, none: str = "") -> None:
    """Print a table; a column whose head starts with ``>`` is set right.

    Parameters
    ----------
    none
        What to say instead where there is no row.
    """
    lines = [[_cell(value) for value in row] for row in rows]
    if not lines:
        if none:
            say(none)
        return
    from rich import box
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, padding=(0, 1, 0, 0))
    for place, head in enumerate(columns):
        # A date or a tag is not broken; only what has words is.
        words = any(" " in line[place] for line in lines)
        table.add_column(
            Text(head.lstrip(">")),
            justify="right" if head.startswith(">") else "left",
            no_wrap=not words or head.startswith(">"),
            overflow="fold",
            min_width=min(_LONG_WORD, _longest_word(line[place] for line in lines)),
        )
    for line in lines:
        table.add_row(*(Text(cell) for cell in line))
    console = Console(highlight=False, markup=False, emoji=False)
    console.print(table, width=None if console.is_terminal else _WIDE, no_wrap=False)


def show_facts(record: object, *, leave: Sequence[str] = ()) -> None:
    """Print the known facts of one record, a line each."""
    facts = {name: value for name, value in vars(record).items() if name not in leave}
    known = {name: value for name, value in facts.items() if value not in (None, "", [], ())}
    width = max(map(len, known), default=0)
    for name, value in known.items():
        told = ", ".join(map(_cell, value)) if isinstance(value, (list, tuple)) else _cell(value)
        say(f"{name.replace('_', ' '):<{width}}  {told}")


def _longest_word(cells: Iterable[str]) -> int:
    return max((len(word) for cell in cells for word in cell.split()), default=1)


def _cell(value: object) -> str:
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.4f}"
    return printable(str(value))


def _plain(value: Any) -> Any:  # noqa: ANN401 - whatever json cannot write itself
    if isinstance(value, date):
        return value.isoformat()
    if dataclasses.is_dataclass(value):
        return {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    return str(value)
