"""``colony.toml``: the day of an exported colony, its settings, and its own species numbers."""

import json
import re
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from colony.exchange.folder.noun import SpeciesValues
from colony.refusals.exchange import NotAColonyFolder

FILE = "colony.toml"
FORMAT = 1

_BARE = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)


@dataclass(frozen=True)
class ColonyHeading:
    """What stands over the tables of an exported colony."""

    as_of: date
    settings: Mapping[str, str]
    species: Mapping[str, SpeciesValues]


def read_heading(text: str, path: str) -> ColonyHeading:
    """Read ``colony.toml``; `NotAColonyFolder` says what is wrong in it."""
    try:
        written = tomllib.loads(text)
    except tomllib.TOMLDecodeError as broken:
        raise NotAColonyFolder(path, f"{FILE}: {broken}") from broken
    except RecursionError as broken:
        raise NotAColonyFolder(path, f"{FILE}: it is nested too deep") from broken
    try:
        return _heading(written)
    except (KeyError, TypeError, ValueError, AttributeError) as wrong:
        raise NotAColonyFolder(path, f"{FILE}: {_why(wrong)}") from wrong


def write_heading(heading: ColonyHeading) -> str:
    """Write ``colony.toml`` so that `read_heading` takes it back."""
    return "\n".join(_lines(heading)) + "\n"


def _heading(written: dict[str, Any]) -> ColonyHeading:
    if written.get("format") != FORMAT:
        raise ValueError(f"format is {written.get('format')}, and this program reads {FORMAT}")
    as_of = written["as_of"]
    if not isinstance(as_of, date) or isinstance(as_of, datetime):
        raise ValueError("as_of must be a date such as 2026-03-09")  # noqa: TRY004 - one kind of fault
    settings = {key: str(value) for key, value in written.get("settings", {}).items()}
    species = {name: _species(facts) for name, facts in written.get("species", {}).items()}
    return ColonyHeading(as_of, settings, species)


def _species(facts: dict[str, Any]) -> SpeciesValues:
    names = {key: facts.get(f"{key}_name") for key in ("scientific", "english")}
    traits = {
        trait: (float(value[0]), str(value[1]))
        for trait, value in facts.items()
        if not trait.endswith("_name")
    }
    return SpeciesValues(names["scientific"], names["english"], traits)


def _lines(heading: ColonyHeading) -> Iterator[str]:
    yield "# A colony in plain files: each table beside this one is a CSV file."
    yield f"format = {FORMAT}"
    yield f"as_of = {heading.as_of}"
    if heading.settings:
        yield "\n[settings]"
        yield from (f"{key} = {_text(value)}" for key, value in heading.settings.items())
    for name, species in heading.species.items():
        yield f"\n[species.{name if _BARE.fullmatch(name) else _text(name)}]"
        for key in ("scientific_name", "english_name"):
            if (value := getattr(species, key)) is not None:
                yield f"{key} = {_text(value)}"
        for trait, (number, source) in species.traits.items():
            yield f"{trait} = [{number!r}, {_text(source)}]"


def _text(text: str) -> str:
    """A TOML basic string: JSON escapes are a part of TOML's (TOML 1.0.0), but for DEL."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007f")


def _why(wrong: Exception) -> str:
    return f"{wrong.args[0]} is missing" if isinstance(wrong, KeyError) else str(wrong)
