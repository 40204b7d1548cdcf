"""How a remedy is done at a command line: each act is a command, each fact an option."""

import shlex
from collections.abc import Sequence

from colony.refusals.base import Advice, Again, AnotherAct, Fact, Refusal, Remedy, in_ways

ARGUMENTS: dict[str, tuple[str, ...]] = {
    "animal edit": ("TAG",),
    "animal end": ("TAG", "HOW"),
    "animal hold": ("TAG",),
    "animal list": (),
    "animal release": ("TAG",),
    "book backup": (),
    "book check": (),
    "book export": ("PATH",),
    "book history": (),
    "book rebuild": ("PATH",),
    "book recount": (),
    "book restore": ("COPY",),
    "book settings": ("KEY", "VALUE"),
    "book undo": (),
    "buyer add": ("NAME",),
    "buyer edit": ("BUYER",),
    "food add": ("NAME",),
    "food batch": ("FOOD", "CODE"),
    "food give": ("TANK", "FOOD"),
    "health death": ("TAG",),
    "health look": (),
    "isolation list": (),
    "litter edit": ("LITTER",),
    "litter list": (),
    "litter record": (),
    "money prices": (),
    "order cancel": ("ORDER",),
    "order close": ("ORDER",),
    "order edit": ("ORDER",),
    "order list": (),
    "order pay": ("ORDER", "AMOUNT"),
    "order release": ("ORDER", "TAG"),
    "order reserve": ("ORDER", "TAG ..."),
    "order ship": ("ORDER",),
    "order show": ("ORDER",),
    "pairing check": ("DAM",),
    "pairing end": ("DAM",),
    "pairing sign": ("DAM",),
    "pairing start": ("DAM", "SIRE"),
    "pup feed": ("TAG", "FOOD"),
    "pup measure": ("TAG", "WIDTH"),
    "round answer": ("PLACE", "ANSWER"),
    "round count": ("TANK", "NUMBER"),
    "round order": ("TANK ...",),
    "round rhythm": ("TASK",),
    "round rhythms": (),
    "sample": ("PATH",),
    "species add": ("NAME",),
    "species set": ("NAME", "TRAIT", "NUMBER"),
    "tank list": (),
    "tank move": ("TAG ...", "TANK"),
    "tank system": ("NAME",),
    "water plan": (),
    "water regime": ("SYSTEM",),
    "water test": ("SYSTEM", "VALUE ..."),
}
"""The command of each act that a remedy names, and what has to stand after it."""

VALUES = {
    "act": "NUMBER",
    "animal": "TAG",
    "born": "DAY",
    "last_seen": "DAY",
    "contact": "CONTACT",
    "dam": "TAG",
    "date_order": "ORDER",
    "diameter": "LENGTH",
    "every": "DAYS",
    "high": "NUMBER",
    "length": "LENGTH",
    "low": "NUMBER",
    "most": "PERCENT",
    "never": "PAIR",
    "on": "DAY",
    "sex": "F or M",
    "sire": "TAG",
    "system": "NAME",
    "tank": "CODE",
    "times": "NUMBER",
    "transponder": "NUMBER",
    "volume": "LITRES",
    "want": "WANT",
    "why": "REASON",
    "width": "LENGTH",
    "with": "PAIR",
    "without": "TAG",
}
"""What stands for a fact of which the breeder says the value."""


def command_of(act: AnotherAct) -> str:
    """The command that does an act; capital words are for the breeder to fill in."""
    objects = [shlex.quote(text) for text in act.objects]
    missing = ARGUMENTS[act.name][len(objects) :]
    return " ".join(["colony", act.name, *objects, *missing, *map(_option, act.facts)])


def ways_of(remedies: Sequence[Remedy]) -> list[str]:
    """What to type for each remedy."""
    acts = [command_of(remedy) for remedy in remedies if isinstance(remedy, AnotherAct)]
    more = [
        " ".join(map(_option, remedy.facts)) for remedy in remedies if isinstance(remedy, Again)
    ]
    return [*acts, f"repeat with {more[0]}", *more[1:]] if more else acts


def sentence_of(problem: Refusal | Advice) -> str:
    """The sentence of a refusal or a warning, with what to type."""
    return in_ways(problem.sentence, ways_of(problem.remedies))


def _option(fact: tuple[str, Fact]) -> str:
    name, value = fact
    option = f"--{name.replace('_', '-')}"
    if value is True:
        return option
    return f"{option} {shlex.quote(str(value)) if value else VALUES[name]}"
