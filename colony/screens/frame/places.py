"""The places by name: where each lives, its key, and what it is for."""

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from colony.screens.frame.place import Place


@dataclass(frozen=True)
class PlaceEntry:
    """One place: the key that leads there, its title, its module, and what it is for."""

    key: str
    title: str
    module: str
    about: str

    def build(self) -> "Place":
        """Make the screen; its module is loaded now and not before."""
        place: Place = import_module(f"colony.screens.{self.module}").PLACE()
        return place


PLACES = {
    "day": PlaceEntry("1", "Today", "book.day", "What now: births, pups, tanks and pairings."),
    "animals": PlaceEntry("2", "Rays", "animals.animals", "Find any animal while typing."),
    "litters": PlaceEntry(
        "3", "Births", "litters.litters", "Due windows on a time line, and litters."
    ),
    "pairings": PlaceEntry(
        "4", "Pairs", "pairings.pairings", "Who is with whom, and who should be."
    ),
    "pups": PlaceEntry(
        "5", "Pups", "pups.pups", "Growing out: pups by readiness, and their curves."
    ),
    "tanks": PlaceEntry("6", "House", "tanks.tanks", "Every tank by system, and how full it is."),
    "round": PlaceEntry("7", "Round", "care.round", "Today's work in walking order, ticked off."),
    "history": PlaceEntry("8", "Log", "book.history", "What was written, and taking it back."),
}
"""Every place, in the order of the top line."""
