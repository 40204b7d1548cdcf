"""Every table, so that one import knows the whole book."""

from colony.records.animals import Animal
from colony.records.growth import Feeding, Measurement
from colony.records.health import Hold
from colony.records.journal import JournalEntry, Setting
from colony.records.litters import Litter
from colony.records.pairings import MatingSign, Pairing, PairingSire, PregnancyFinding
from colony.records.parentage import PossibleSire
from colony.records.species import LifeHistory, Species
from colony.records.tanks import Placement, System, Tank
from colony.records.work import MoveToDo

__all__ = [
    "Animal",
    "Feeding",
    "Hold",
    "JournalEntry",
    "LifeHistory",
    "Litter",
    "MatingSign",
    "Measurement",
    "MoveToDo",
    "Pairing",
    "PairingSire",
    "Placement",
    "PossibleSire",
    "PregnancyFinding",
    "Setting",
    "Species",
    "System",
    "Tank",
]
