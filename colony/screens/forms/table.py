"""The slips by name: the key that brings each, its title, its module, and what it is for."""

from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from colony.screens.slips.slip import Slip


@dataclass(frozen=True)
class SlipEntry:
    """One slip; `often` says that its key is shown in the bottom line everywhere."""

    key: str
    title: str
    about: str
    often: bool = False

    def load(self, name: str) -> type["Slip"]:
        """Load the slip's class; its module is named as the slip is."""
        slip: type[Slip] = import_module(f"colony.screens.slips.{name}").SLIP
        return slip


SLIPS = {
    "birth": SlipEntry("b", "Birth", "Write down a birth: the litter and its pups.", often=True),
    "widths": SlipEntry("w", "Widths", "Measure pups one after another.", often=True),
    "move": SlipEntry("m", "Move", "Move animals into a tank.", often=True),
    "sign": SlipEntry("s", "Sign", "Write down a mating sign.", often=True),
    "partners": SlipEntry("p", "Partners", "Rank the best partners of an animal.", often=True),
    "look": SlipEntry("k", "Look", "Write down what was found of a female."),
    "fed": SlipEntry("f", "Fed", "Write down a food that was offered."),
    "end": SlipEntry("e", "End", "An animal was sold, died or is gone."),
    "join": SlipEntry("j", "Join", "Put a dam with her sires."),
    "part": SlipEntry("x", "Part", "Separate a dam from her sires."),
    "hold": SlipEntry("h", "Hold", "Hold an animal from breeding and sale."),
    "release": SlipEntry("H", "Release", "End the hold of an animal."),
    "mend": SlipEntry("d", "Mend", "Mend a fact of an animal."),
    "arrival": SlipEntry("n", "New ray", "Write down an animal from elsewhere."),
    "skip": SlipEntry("", "Skip", "Let work of the round go for a day, with the reason."),
    "tank": SlipEntry("T", "New tank", "Write down a tank."),
}
"""Every slip."""
