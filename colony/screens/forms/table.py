"""The forms by name: the key that brings each, its title, its module, and what it is for."""

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from colony.screens.forms.form import Form


@dataclass(frozen=True)
class FormEntry:
    """One form; `often` says that its key is shown in the bottom line everywhere."""

    key: str
    title: str
    module: str
    about: str
    often: bool = False

    def load(self) -> type["Form"]:
        """Load the class of the form."""
        form: type[Form] = import_module(f"colony.screens.{self.module}").FORM
        return form


FORMS = {
    "birth": FormEntry(
        "b",
        "Birth",
        "litters.birth_form",
        "Write down a birth: the litter and its pups.",
        often=True,
    ),
    "widths": FormEntry(
        "w", "Widths", "pups.widths_form", "Measure pups one after another.", often=True
    ),
    "move": FormEntry("m", "Move", "tanks.move_form", "Move animals into a tank.", often=True),
    "sign": FormEntry("s", "Sign", "pairings.sign_form", "Write down a mating sign.", often=True),
    "partners": FormEntry(
        "p",
        "Partners",
        "pairings.partners_form",
        "Rank the best partners of an animal.",
        often=True,
    ),
    "look": FormEntry("k", "Look", "pairings.check_form", "Write down what was found of a female."),
    "fed": FormEntry("f", "Fed", "pups.fed_form", "Write down a food that was offered."),
    "end": FormEntry("e", "End", "animals.end_form", "An animal was sold, died or is gone."),
    "join": FormEntry("j", "Join", "pairings.join_form", "Put a dam with her sires."),
    "part": FormEntry("x", "Part", "pairings.separate_form", "Separate a dam from her sires."),
    "hold": FormEntry("h", "Hold", "health.hold_form", "Hold an animal from breeding and sale."),
    "release": FormEntry("H", "Release", "health.release_form", "End the hold of an animal."),
    "mend": FormEntry("d", "Mend", "animals.correct_form", "Mend a fact of an animal."),
    "arrival": FormEntry(
        "n", "New ray", "animals.arrival_form", "Write down an animal from elsewhere."
    ),
    "skip": FormEntry(
        "", "Skip", "care.skip_form", "Let work of the round go for a day, with the reason."
    ),
    "tank": FormEntry("T", "New tank", "tanks.tank_form", "Write down a tank."),
}
"""Every form."""
