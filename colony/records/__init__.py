"""Every table, so that one import knows the whole book."""

from colony.records.animals import Animal
from colony.records.care import CareDone, CareRhythm
from colony.records.foods import Food, FoodBatch, TankFeeding
from colony.records.growth import Feeding, Measurement
from colony.records.health import Hold, LookOver, Prescription, VetPatient, VetVisit
from colony.records.journal import JournalEntry, Setting
from colony.records.litters import Litter
from colony.records.pairings import MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.records.parentage import PossibleSire
from colony.records.species import LifeHistory, Species
from colony.records.tanks import Placement, System, Tank
from colony.records.water import ReserveReading, WaterChange, WaterLimit, WaterRegime, WaterTest
from colony.records.work import MoveToDo

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
]
