"""What comes of a call: its answer, or a refusal in the words of the screens."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from colony.refusals.base import Advice, Again, AnotherAct, Fact, Refusal, Remedy, in_ways
from colony.screens.forms.table import FORM_OF

T = TypeVar("T")

KEYS_OF = {
    "animal list": "press / to find it",
    "tank list": "press 6 to see the house",
    "litter list": "press 3 to see the births",
    "book history": "press 8 to see the log",
    "book undo": "z in the log (8) takes back any act",
}
"""The key for what no form does."""


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
        return Outcome(None, sentence_of(refusal), refusal.fields, refusal.overridable)


def sentence_of(problem: Refusal | Advice) -> str:
    """The sentence of a refusal or a warning, with what to press."""
    ways = dict.fromkeys(filter(None, map(words_of, problem.remedies)))
    return in_ways(problem.sentence, list(ways))


def words_of(remedy: Remedy) -> str:
    """What to press for a remedy; nothing where the form itself shows what to fill in."""
    match remedy:
        case AnotherAct(name, objects, facts):
            return KEYS_OF.get(name) or _form_of(name, facts) or _elsewhere(name, objects)
        case Again(facts) if ("anyway", True) in facts:
            return "write why, then press F2" if ("why", "") in facts else "press F2"
        case Again():
            return ""


def _form_of(act: str, facts: tuple[tuple[str, Fact], ...]) -> str:
    """The form that writes an act; no form has a mark that is only set."""
    form = FORM_OF.get(act)
    if form is None or not form.key or any(value is True for _, value in facts):
        return ""
    return f"press {form.key} for {form.title}"


def _elsewhere(act: str, objects: tuple[str, ...]) -> str:
    """What no screen does yet is a command."""
    return f"colony {' '.join([act, *objects])}"
