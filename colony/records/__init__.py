"""Every table by its class; a module of tables is loaded when one of its classes is asked for.

A command that reads builds the few tables it looks at; an act has them all (`every_table`),
because a key may refer to any of them.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import MetaData

    from colony.records.animals import Animal
    from colony.records.book import JournalEntry, Setting
    from colony.records.care import CareDone, CareRhythm
    from colony.records.foods import Food, FoodBatch, TankFeeding
    from colony.records.health import LookOver, Prescription, VetPatient, VetVisit
    from colony.records.holds import Hold
    from colony.records.litters import Litter, PossibleSire
    from colony.records.pairings import MatingSign, Pairing, PairingSire, PregnancyFinding
    from colony.records.pups import Feeding, Measurement
    from colony.records.species import LifeHistory, Species
    from colony.records.tanks import Placement, System, Tank
    from colony.records.water import ReserveReading, WaterChange, WaterLimit, WaterRegime, WaterTest
    from colony.records.work import MoveToDo

TABLES = {
    "animals": ("Animal",),
    "book": (
        "JournalEntry",
        "Setting",
    ),
    "care": (
        "CareDone",
        "CareRhythm",
    ),
    "foods": (
        "Food",
        "FoodBatch",
        "TankFeeding",
    ),
    "health": (
        "LookOver",
        "Prescription",
        "VetPatient",
        "VetVisit",
    ),
    "holds": ("Hold",),
    "litters": (
        "Litter",
        "PossibleSire",
    ),
    "pairings": (
        "MatingSign",
        "Pairing",
        "PairingSire",
        "PregnancyFinding",
    ),
    "pups": (
        "Feeding",
        "Measurement",
    ),
    "species": (
        "LifeHistory",
        "Species",
    ),
    "tanks": (
        "Placement",
        "System",
        "Tank",
    ),
    "water": (
        "ReserveReading",
        "WaterChange",
        "WaterLimit",
        "WaterRegime",
        "WaterTest",
    ),
    "work": ("MoveToDo",),
}
"""The classes of each module of this room."""

_HOME = {name: module for module, names in TABLES.items() for name in names}

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
]


def every_table() -> "MetaData":
    """Load every table of the book and return what is known of them."""
    from sqlmodel import SQLModel  # noqa: PLC0415 - as late as the tables

    for module in TABLES:
        import_module(f"{__name__}.{module}")
    return SQLModel.metadata


if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """Load the table that is asked for (PEP 562)."""
        if name not in _HOME:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
