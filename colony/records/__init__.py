"""Every table by its class; a module of tables is loaded when one of its classes is asked for.

A command that reads builds the few tables it looks at; an act has them all (`every_table`),
because a key may refer to any of them.
"""

from collections.abc import Callable
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import MetaData

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


def _animals() -> ModuleType:
    from colony.records import animals

    return animals


def _care() -> ModuleType:
    from colony.records import care

    return care


def _foods() -> ModuleType:
    from colony.records import foods

    return foods


def _health() -> ModuleType:
    from colony.records import health

    return health


def _holds() -> ModuleType:
    from colony.records import holds

    return holds


def _journal() -> ModuleType:
    from colony.records import journal

    return journal


def _litters() -> ModuleType:
    from colony.records import litters

    return litters


def _pairings() -> ModuleType:
    from colony.records import pairings

    return pairings


def _pups() -> ModuleType:
    from colony.records import pups

    return pups


def _settings() -> ModuleType:
    from colony.records import settings

    return settings


def _species() -> ModuleType:
    from colony.records import species

    return species


def _tanks() -> ModuleType:
    from colony.records import tanks

    return tanks


def _water() -> ModuleType:
    from colony.records import water

    return water


def _work() -> ModuleType:
    from colony.records import work

    return work


TABLES: dict[str, Callable[[], ModuleType]] = {
    "Animal": _animals,
    "CareDone": _care,
    "CareRhythm": _care,
    "Food": _foods,
    "FoodBatch": _foods,
    "TankFeeding": _foods,
    "LookOver": _health,
    "Prescription": _health,
    "VetPatient": _health,
    "VetVisit": _health,
    "Hold": _holds,
    "JournalEntry": _journal,
    "Litter": _litters,
    "PossibleSire": _litters,
    "MatingSign": _pairings,
    "Pairing": _pairings,
    "PairingSire": _pairings,
    "PregnancyFinding": _pairings,
    "Feeding": _pups,
    "Measurement": _pups,
    "Setting": _settings,
    "LifeHistory": _species,
    "Species": _species,
    "Placement": _tanks,
    "System": _tanks,
    "Tank": _tanks,
    "ReserveReading": _water,
    "WaterChange": _water,
    "WaterLimit": _water,
    "WaterRegime": _water,
    "WaterTest": _water,
    "MoveToDo": _work,
}
"""Every table, with what loads the module of its class."""

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
    from sqlmodel import SQLModel

    for load in TABLES.values():
        load()
    return SQLModel.metadata


if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """Load the table that is asked for (PEP 562)."""
        if name not in TABLES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(TABLES[name](), name)
