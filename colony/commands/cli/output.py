"""How a command answers: a sentence, a table, or one JSON document."""

import dataclasses
import json
import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from functools import cache
from typing import Any

from colony.commands.cli.remedies import sentence_of
from colony.commands.cli.table import draw
from colony.notation.tags import printable
from colony.refusals.base import Advice

_UNPRINTABLE = re.compile(r"[\x7f-\x9f\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff]")
"""What JSON may hold as it is, but a terminal might obey."""


def say(sentence: str) -> None:
    """Print one line on stdout, its control characters made inert."""
    sys.stdout.write("\n".join(printable(line) for line in sentence.split("\n")) + "\n")


def warn(warnings: Iterable[str | Advice]) -> None:
    """Print warnings on stderr, a line each."""
    for warning in warnings:
        sentence = sentence_of(warning) if isinstance(warning, Advice) else warning
        sys.stderr.write(f"! {printable(sentence)}\n")


def show_json(document: object) -> None:
    """Print one JSON document: snake_case keys, ISO dates, whole mm and g."""
    # In one piece: many times faster than written bit by bit as json.dump does.
    ascii_only = "utf" not in (getattr(sys.stdout, "encoding", None) or "").lower()
    text = json.dumps(document, default=_plain, ensure_ascii=ascii_only, allow_nan=False)
    sys.stdout.write(f"{_UNPRINTABLE.sub(_escaped, text)}\n")


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
    draw(columns, lines)


def show_facts(record: object, *, leave: Sequence[str] = ()) -> None:
    """Print the known facts of one record or document, a line each."""
    facts = record if isinstance(record, Mapping) else vars(record)
    known = {
        name: value
        for name, value in facts.items()
        if name not in leave and value not in (None, "", [], ())
    }
    width = max(map(len, known), default=0)
    for name, value in known.items():
        words = ", ".join(map(_cell, value)) if isinstance(value, (list, tuple)) else _cell(value)
        say(f"{name.replace('_', ' '):<{width}}  {words}")


def _escaped(found: re.Match[str]) -> str:
    return f"\\u{ord(found[0]):04x}"


def _cell(value: object) -> str:
    if value is None:
        return "-"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.4f}"
    return printable(" ".join(str(value).split("\n")))


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in dataclasses.fields(kind))


def _plain(value: Any) -> Any:  # noqa: ANN401 - whatever json cannot write itself
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, Advice):
        return sentence_of(value)
    kind = type(value)
    if dataclasses.is_dataclass(kind):
        return {name: getattr(value, name) for name in _names(kind)}
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    return str(value)
