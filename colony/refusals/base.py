"""What every refusal is: one sentence that says what is wrong, where, and what would be right."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

Fact = str | bool
"""What is given to an act: a text, "" where the breeder says which, or True for what is only named."""


@dataclass(frozen=True)
class AnotherAct:
    """An act that would help, by its name in the journal; what it is done to; and facts for it."""

    name: str
    objects: tuple[str, ...] = ()
    facts: tuple[tuple[str, Fact], ...] = ()


@dataclass(frozen=True)
class Again:
    """The same act once more, with these facts: `anyway` overrides, `yes` confirms."""

    facts: tuple[tuple[str, Fact], ...]


Remedy = AnotherAct | Again
"""What would put it right. A refusal names it as data; each face words it in its own way."""


def act(name: str, *objects: str, **facts: Fact) -> AnotherAct:
    """An act that would help, with what is known of it."""
    return AnotherAct(name, objects, tuple(facts.items()))


def again(**facts: Fact) -> Again:
    """The same act once more, with these facts."""
    return Again(tuple(facts.items()))


@dataclass(frozen=True)
class Advice:
    """A warning about what was done, and what would put it right."""

    sentence: str
    remedies: tuple[Remedy, ...]

    def __str__(self) -> str:
        return self.sentence


class Refusal(Exception):
    """The book declines, in one sentence; nothing was written.

    Each refusal is a class of its own that takes facts and composes its sentence, which names
    no key and no command: how its remedies are done is for the face to say.
    """

    exit_code: ClassVar[int] = 1
    fields: ClassVar[tuple[str, ...]] = ()
    """The facts that it is about, the likeliest first."""

    def __init__(self, sentence: str, *remedies: Remedy) -> None:
        super().__init__(sentence)
        self.sentence = sentence
        self.remedies = remedies

    @property
    def overridable(self) -> bool:
        """Whether the breeder may do it all the same."""
        return any(
            isinstance(way, Again) and ("anyway", True) in way.facts for way in self.remedies
        )


class WrongUse(Refusal):
    """What was typed cannot be read; the sentence shows what would be right."""

    exit_code: ClassVar[int] = 2


def in_ways(sentence: str, ways: Sequence[str]) -> str:
    """Put before the end of a sentence in which ways a face lets it be done."""
    if not ways:
        return sentence
    return f"{sentence[:-1]} ({', or '.join(ways)}){sentence[-1]}"


def listed(names: list[str] | tuple[str, ...], last: str = "or") -> str:
    """Join names as a sentence does: ``a, b or c``."""
    *head, tail = names or ["none"]
    return f"{', '.join(head)} {last} {tail}" if head else tail
