"""Every table by its class; a module of tables is loaded when one of its classes is asked for.

A command that reads builds the few tables it looks at; an act has them all (`every_table`),
because a key may refer to any of them.
"""

from collections.abc import Mapping
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import MetaData
    from sqlmodel import SQLModel

    from colony.records.animals import Animal
    from colony.records.care import CareDone, CareRhythm
    from colony.records.foods import Food, FoodBatch, TankFeeding
    from colony.records.health import LookOver, Prescription, VetPatient, VetVisit
    from colony.records.holds import Hold
    from colony.records.journal import JournalEntry
    from colony.records.litters import Litter, PossibleSire
    from colony.records.pairings import MatingSign, Pairing, PairingSire, PregnancyFinding
    from colony.records.pups import Feeding, Measurement
    from colony.records.settings import Setting
    from colony.records.species import LifeHistory, Species
    from colony.records.tanks import Placement, System, Tank
    from colony.records.water import ReserveReading, WaterChange, WaterLimit, WaterRegime, WaterTest
    from colony.records.work import MoveToDo

TABLES: Mapping[str, Mapping[str, str]] = {
    "animals": {"Animal": "animals"},
    "care": {"CareDone": "care_done", "CareRhythm": "care_rhythms"},
    "foods": {"Food": "foods", "FoodBatch": "food_batches", "TankFeeding": "tank_feedings"},
    "health": {
        "LookOver": "look_overs",
        "Prescription": "prescriptions",
        "VetPatient": "",
        "VetVisit": "vet_visits",
    },
    "holds": {"Hold": "holds"},
    "journal": {"JournalEntry": ""},
    "litters": {"Litter": "litters", "PossibleSire": ""},
    "pairings": {
        "MatingSign": "mating_signs",
        "Pairing": "pairings",
        "PairingSire": "",
        "PregnancyFinding": "pregnancy_findings",
    },
    "pups": {"Feeding": "feedings", "Measurement": "measurements"},
    "settings": {"Setting": ""},
    "species": {"LifeHistory": "", "Species": ""},
    "tanks": {"Placement": "placements", "System": "systems", "Tank": "tanks"},
    "water": {
        "ReserveReading": "reserve_readings",
        "WaterChange": "water_changes",
        "WaterLimit": "water_limits",
        "WaterRegime": "water_regimes",
        "WaterTest": "water_tests",
    },
    "work": {"MoveToDo": "moves_to_do"},
}
"""The classes of each module of this room, and the noun whose row each is.

Without a noun a record is written beside another: a possible sire beside its litter, a setting
beside the book.
"""

_HOME = {name: module for module, names in TABLES.items() for name in names}

RECORDED = {noun: name for names in TABLES.values() for name, noun in names.items() if noun}
"""The class of each noun."""

__all__ = [
    "Animal",
    "CareDone",
    "CareRhythm",
    "Feeding",
    "Food",
    "FoodBatch",
    "Hold",
    "JournalEntry",
    "LifeHistory",
    "Litter",
    "LookOver",
    "MatingSign",
    "Measurement",
    "MoveToDo",
    "Pairing",
    "PairingSire",
    "Placement",
    "PossibleSire",
    "PregnancyFinding",
    "Prescription",
    "ReserveReading",
    "Setting",
    "Species",
    "System",
    "Tank",
    "TankFeeding",
    "VetPatient",
    "VetVisit",
    "WaterChange",
    "WaterLimit",
    "WaterRegime",
    "WaterTest",
    "every_table",
    "record_of",
]


def every_table() -> "MetaData":
    """Load every table of the book and return what is known of them."""
    from sqlmodel import SQLModel  # noqa: PLC0415 - as late as the tables

    for module in TABLES:
        import_module(f"{__name__}.{module}")
    return SQLModel.metadata


def record_of(noun: str) -> "type[SQLModel]":
    """The class whose rows are those of a noun: ``animals`` are each an `Animal`."""
    name = RECORDED[noun]
    record: type[SQLModel] = getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
    return record


if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """Load the table that is asked for (PEP 562)."""
        if name not in _HOME:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
