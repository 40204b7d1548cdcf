"""The places by name: the key that leads to each, its title, and what it is for."""

from dataclasses import dataclass


@dataclass(frozen=True)
class PlaceEntry:
    """One place of the top line."""

    key: str
    title: str
    about: str


PLACES = {
    "day": PlaceEntry("1", "Today", "What now: births, pups, tanks and pairings."),
    "animals": PlaceEntry("2", "Rays", "Find any animal while typing."),
    "litters": PlaceEntry("3", "Births", "Due windows on a time line, and litters."),
    "pairings": PlaceEntry("4", "Pairs", "Who is with whom, and who should be."),
    "pups": PlaceEntry("5", "Pups", "Growing out: pups by readiness, and their curves."),
    "tanks": PlaceEntry("6", "House", "Every tank by system, and how full it is."),
    "round": PlaceEntry("7", "Round", "Today's work in walking order, ticked off."),
    "history": PlaceEntry("8", "Log", "What was written, and taking it back."),
    "orders": PlaceEntry("9", "Sales", "Orders, what is kept for whom, and what is owed."),
}
"""Every place, in the order of the top line."""
