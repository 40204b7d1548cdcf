"""Where a refusal becomes words in the screens; the only such place."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from colony.refusals.base import Refusal
from colony.screens.forms.table import FORMS

T = TypeVar("T")

SAID_HERE = {
    ", or repeat with --anyway": ", or press F2 to write it anyway",
    "repeat with --anyway --why REASON": "write why, then press F2",
    "look with colony book history, and name any other act with colony book undo --act NUMBER": (
        "in the log (8), z takes back any other act"
    ),
    ", then begin again.": ", or leave (q) and begin again.",
    "see: colony animal list.": "press / to find it.",
    "see: colony tank list.": "press 6 to see the house.",
}
"""What a sentence says to somebody at a command line, and what it is at the screens."""

FORM_OF = {
    "animal edit": "mend",
    "animal end": "end",
    "animal hold": "hold",
    "animal release": "release",
    "litter record": "birth",
    "pairing check": "look",
    "pairing end": "part",
    "pairing sign": "sign",
    "pairing start": "join",
    "pup measure": "widths",
    "tank add": "tank",
    "tank move": "move",
}
"""The form that does here what a command does there."""

_COMMAND = re.compile(rf"\bcolony ({'|'.join(FORM_OF)})\b[^.,;:]*")

FIELDS = {
    "NoSuchTank": ("tank",),
    "TankRetired": ("tank",),
    "TankDoesNotFit": ("tank",),
    "AlreadyInTank": ("tank", "tags"),
    "NotYet": ("on", "born", "arrived"),
    "MoveBeforeLast": ("on",),
    "EndsBeforeItBegan": ("on", "born"),
    "EndsBeforeStart": ("on",),
    "TooSoonAfterBirth": ("born",),
    "ImpossibleGestation": ("born",),
    "LitterTwice": ("born",),
    "NobodyBorn": ("pups",),
    "DeadDam": ("dam",),
    "SireCannotBe": ("sires",),
    "NotOfThisPairing": ("sire",),
    "PairedAlready": ("dam",),
    "NoPairing": ("dam",),
    "TagTaken": ("tag",),
    "TransponderTaken": ("transponder",),
    "NoSuchSpecies": ("species",),
    "ParentNotOlder": ("born", "dam"),
    "NotHere": ("tag", "tags", "dam"),
    "WrongSexForParent": ("dam", "sires"),
    "LeavesIsolationEarly": ("why",),
    "AlreadyEnded": ("tag",),
    "HeldAlready": ("tag",),
    "NotHeld": ("tag",),
}
"""The fields at which a refusal is shown, by its name: the first that the form has."""

OVERRIDABLE = frozenset({"TankDoesNotFit", "LeavesIsolationEarly"})
"""Refusals that the breeder may override."""


@dataclass(frozen=True)
class Outcome(Generic[T]):
    """What came of a call: its answer, or why it was refused and where that is shown."""

    answer: T | None = None
    problem: str = ""
    fields: tuple[str, ...] = ()
    overridable: bool = False


def attempt(call: Callable[[], T]) -> Outcome[T]:
    """Call something; a refusal becomes a sentence."""
    try:
        return Outcome(call())
    except Refusal as refusal:
        name = type(refusal).__name__
        return Outcome(None, _here(refusal.sentence), FIELDS.get(name, ()), name in OVERRIDABLE)


def _here(sentence: str) -> str:
    for there, here in SAID_HERE.items():
        sentence = sentence.replace(there, here)
    return _COMMAND.sub(_key_of, sentence)


def _key_of(command: re.Match[str]) -> str:
    form = FORMS[FORM_OF[command[1]]]
    return f"press {form.key} ({form.title})"
