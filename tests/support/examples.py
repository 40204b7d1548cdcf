"""An example of every refusal, made of plain facts by what each says it takes."""

import importlib
import inspect
import pkgutil
from collections.abc import Iterator, Sequence
from datetime import date, datetime
from typing import Any, get_type_hints

from colony import refusals
from colony.refusals.base import Refusal, WrongUse

FACTS: dict[object, object] = {
    str: "Alma",
    int: 3,
    float: 0.8,
    bool: True,
    date: date(2026, 3, 9),
    datetime: datetime(2026, 3, 9, 7, 30),  # noqa: DTZ001 - only written out
    list[str]: ["Alma", "Bruno"],
    tuple[str, ...]: ("Alma", "Bruno"),
    list[int]: [3, 4],
    Sequence[str]: ["Alma is gone"],
    tuple[int, str]: (4, "pup measure"),
    Sequence[tuple[int, str]]: [(4, "pup measure")],
    Sequence[tuple[str, str]]: [("Bruno", "26-01-1")],
}
"""A fact of each type that refusals take."""

NAMED: dict[str, object] = {
    "sex": "M",
    "act_name": "round count",
    "role": "dam",
    "how": "died",
    "status": "died",
    "location": "farm.colony",
    "folder": "backups",
    "code": "26-01",
    "species": "leopoldi",
    "found": [("26-01-1", "Bruno"), ("26-01-2", "Caro")],
}
"""Facts by their name, where the type says too little."""


def every_refusal() -> list[type[Refusal]]:
    """Every class that is raised: all but the two bases."""
    for module in pkgutil.iter_modules(refusals.__path__):
        importlib.import_module(f"{refusals.__name__}.{module.name}")
    importlib.import_module("colony.commands.cli.misuse")
    return sorted(
        set(_under(Refusal)) - {WrongUse}, key=lambda kind: (kind.__module__, _line(kind))
    )


def example(kind: type[Refusal]) -> Refusal:
    """One refusal of a kind, from facts alone."""
    hints = get_type_hints(kind.__init__)
    facts: dict[str, Any] = {}
    for name, parameter in inspect.signature(kind).parameters.items():
        if name in NAMED:
            facts[name] = NAMED[name]
        elif parameter.default is inspect.Parameter.empty:
            facts[name] = _fact(hints[name])
    return kind(**facts)


def _fact(hint: Any) -> object:  # noqa: ANN401 - any annotation
    if hint in FACTS:
        return FACTS[hint]
    choices = [one for one in getattr(hint, "__args__", ()) if one in FACTS]
    if not choices:
        raise LookupError(f"no example of {hint}: add it to FACTS")
    return FACTS[choices[0]]


def _line(kind: type) -> int:
    return inspect.getsourcelines(kind)[1]


def _under(kind: type[Refusal]) -> Iterator[type[Refusal]]:
    for subclass in kind.__subclasses__():
        yield subclass
        yield from _under(subclass)
