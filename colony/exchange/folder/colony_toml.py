"""``colony.toml``: the day of an exported colony, its settings, and its own species numbers."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

import tomli_w

from colony.exchange.folder.noun import SpeciesValues
from colony.refusals.exchange import NotAColonyFolder

FILE = "colony.toml"
FORMAT = 1

COMMENT = "# A colony in plain files: each table beside this one is a CSV file.\n"
NAMES = ("scientific_name", "english_name")


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
        why = f"{wrong.args[0]} is missing" if isinstance(wrong, KeyError) else str(wrong)
        raise NotAColonyFolder(path, f"{FILE}: {why}") from wrong


def write_heading(heading: ColonyHeading) -> str:
    """Write ``colony.toml`` so that `read_heading` takes it back."""
    tables = {"settings": dict(heading.settings), "species": _species_tables(heading.species)}
    filled = {name: table for name, table in tables.items() if table}
    return COMMENT + tomli_w.dumps({"format": FORMAT, "as_of": heading.as_of, **filled})


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
    scientific, english = (facts.get(name) for name in NAMES)
    traits = {
        trait: (float(value[0]), str(value[1]))
        for trait, value in facts.items()
        if not trait.endswith("_name")
    }
    return SpeciesValues(scientific, english, traits)


def _species_tables(species: Mapping[str, SpeciesValues]) -> dict[str, dict[str, Any]]:
    return {
        name: {key: value for key in NAMES if (value := getattr(values, key)) is not None}
        | {trait: list(fact) for trait, fact in values.traits.items()}
        for name, values in species.items()
    }
