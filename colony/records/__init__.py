"""Every table by its class; a module of tables is loaded when one of its classes is asked for.

A command that reads builds the few tables it looks at; an act has them all (`every_table`),
because a key may refer to any of them.
"""

from collections.abc import Callable, Mapping
from types import ModuleType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlalchemy import MetaData
    from sqlmodel import SQLModel

    from colony.records.animals import Animal
    from colony.records.book import BookIdentity, JournalEntry, JournalPlace, Setting
    from colony.records.care import CareDone, CareRhythm, HouseTask
    from colony.records.foods import Feeding, Food, FoodBatch, TankFeeding
    from colony.records.health import LookOver, Prescription, VetPatient, VetVisit
    from colony.records.holds import Hold, Overruling
    from colony.records.litters import Litter, PossibleSire
    from colony.records.money import Expense, Price
    from colony.records.orders import (
        Buyer,
        Order,
        OrderEvent,
        OrderWant,
        Payment,
        Person,
        Reservation,
        Shipment,
    )
    from colony.records.pairings import MatingSign, Pairing, PairingSire, PregnancyFinding
    from colony.records.pups import Measurement
    from colony.records.species import LifeHistory, Species
    from colony.records.tanks import Placement, System, Tank
    from colony.records.water import ReserveReading, WaterChange, WaterLimit, WaterRegime, WaterTest
    from colony.records.work import AlarmAnswer, MoveToDo


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


def _book() -> ModuleType:
    from colony.records import book

    return book


def _litters() -> ModuleType:
    from colony.records import litters

    return litters


def _money() -> ModuleType:
    from colony.records import money

    return money


def _orders() -> ModuleType:
    from colony.records import orders

    return orders


def _pairings() -> ModuleType:
    from colony.records import pairings

    return pairings


def _pups() -> ModuleType:
    from colony.records import pups

    return pups


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


TABLES: Mapping[str, tuple[Callable[[], ModuleType], str]] = {
    "AlarmAnswer": (_work, "alarm_answers"),
    "Animal": (_animals, "animals"),
    "CareDone": (_care, "care_done"),
    "CareRhythm": (_care, "care_rhythms"),
    "HouseTask": (_care, "house_tasks"),
    "Food": (_foods, "foods"),
    "FoodBatch": (_foods, "food_batches"),
    "TankFeeding": (_foods, "tank_feedings"),
    "LookOver": (_health, "look_overs"),
    "Prescription": (_health, "prescriptions"),
    "VetPatient": (_health, ""),
    "VetVisit": (_health, "vet_visits"),
    "Hold": (_holds, "holds"),
    "Overruling": (_holds, "overrulings"),
    "BookIdentity": (_book, ""),
    "JournalEntry": (_book, ""),
    "JournalPlace": (_book, ""),
    "Litter": (_litters, "litters"),
    "PossibleSire": (_litters, ""),
    "MatingSign": (_pairings, "mating_signs"),
    "Pairing": (_pairings, "pairings"),
    "PairingSire": (_pairings, ""),
    "PregnancyFinding": (_pairings, "pregnancy_findings"),
    "Feeding": (_foods, "feedings"),
    "Measurement": (_pups, "measurements"),
    "Setting": (_book, ""),
    "LifeHistory": (_species, ""),
    "Species": (_species, ""),
    "Placement": (_tanks, "placements"),
    "System": (_tanks, "systems"),
    "Tank": (_tanks, "tanks"),
    "ReserveReading": (_water, "reserve_readings"),
    "WaterChange": (_water, "water_changes"),
    "WaterLimit": (_water, "water_limits"),
    "WaterRegime": (_water, "water_regimes"),
    "WaterTest": (_water, "water_tests"),
    "MoveToDo": (_work, "moves_to_do"),
    "Buyer": (_orders, "buyers"),
    "Person": (_orders, ""),
    "Order": (_orders, "orders"),
    "OrderWant": (_orders, "order_wants"),
    "OrderEvent": (_orders, "order_events"),
    "Reservation": (_orders, "reservations"),
    "Payment": (_orders, "payments"),
    "Shipment": (_orders, "shipments"),
    "Price": (_money, "prices"),
    "Expense": (_money, "expenses"),
}
"""Every table: what loads the module of its class, and the noun whose row each record is.

Without a noun a record is written beside another: a possible sire beside its litter, a person
beside the buyer, a setting beside the book.
"""

RECORDED = {noun: name for name, (_, noun) in TABLES.items() if noun}
"""The class of each noun."""

__all__ = [
    "AlarmAnswer",
    "Animal",
    "BookIdentity",
    "Buyer",
    "CareDone",
    "CareRhythm",
    "Expense",
    "Feeding",
    "Food",
    "FoodBatch",
    "Hold",
    "HouseTask",
    "JournalEntry",
    "JournalPlace",
    "LifeHistory",
    "Litter",
    "LookOver",
    "MatingSign",
    "Measurement",
    "MoveToDo",
    "Order",
    "OrderEvent",
    "OrderWant",
    "Overruling",
    "Pairing",
    "PairingSire",
    "Payment",
    "Person",
    "Placement",
    "PossibleSire",
    "PregnancyFinding",
    "Prescription",
    "Price",
    "Reservation",
    "ReserveReading",
    "Setting",
    "Shipment",
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
    from sqlmodel import SQLModel

    for load, _ in TABLES.values():
        load()
    return SQLModel.metadata


def record_of(noun: str) -> "type[SQLModel]":
    """The class whose rows are those of a noun: ``animals`` are each an `Animal`."""
    name = RECORDED[noun]
    load, _ = TABLES[name]
    record: type[SQLModel] = getattr(load(), name)
    return record


if not TYPE_CHECKING:

    def __getattr__(name: str) -> object:
        """Load the table that is asked for (PEP 562)."""
        if name not in TABLES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        load, _ = TABLES[name]
        return getattr(load(), name)
