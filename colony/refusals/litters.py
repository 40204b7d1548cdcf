"""Refusals about births: a dam that cannot have borne, a birth that cannot be."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.animals import HardlyMeant
from colony.refusals.base import Refusal, act, listed
from colony.refusals.notation import shown


class NoSuchLitter(Refusal):
    """No litter has that code; the nearest are named."""

    def __init__(self, code: str, nearest: list[str]) -> None:
        sentence = f"There is no litter {shown(code)}"
        if nearest:
            super().__init__(f"{sentence}: did you mean {listed(nearest)}?")
        else:
            super().__init__(f"{sentence}: look in the list of litters.", act("litter list"))


class NoPupHere(Refusal):
    """All pups of a litter were meant, and none is here any more."""

    fields = ("tags", "animals")

    def __init__(self, code: str) -> None:
        super().__init__(f"No pup of litter {shown(code)} is here any more: name another litter.")


class NotDue(Refusal):
    """A birth is to be prepared of a dam of whom nothing speaks for one."""

    fields = ("dam",)

    def __init__(self, dam: str) -> None:
        super().__init__(
            f"Nothing speaks for a birth of {dam}: note a mating sign or what was found of her.",
            act("pairing sign", dam),
            act("pairing check", dam),
        )


class DeadDam(Refusal):
    """A dam had ended before the birth."""

    fields = ("dam",)

    def __init__(self, tag: str, how: str, ended_on: date | None, born: date) -> None:
        has = {"died": "died", "sold": "was sold", "gone": "left"}.get(how, how)
        super().__init__(
            f"{tag} {has} on {ended_on} and cannot have borne a litter on {born}: check the dam and the date."
        )


class ImpossibleGestation(Refusal):
    """The birth comes when the dam cannot have carried it."""

    fields = ("born",)

    def __init__(self, dam: str, born: date, why: str) -> None:
        super().__init__(
            f"{dam} cannot have borne on {born} ({why}): check the dam and the date, or name the sire if another pairing was not recorded."
        )


class TooSoonAfterBirth(Refusal):
    """The dam bore a moment ago, or shortly after, and cannot have twice."""

    fields = ("born",)

    def __init__(self, dam: str, born: date, other_birth: date, least_days: int) -> None:
        super().__init__(
            f"{dam} bore on {other_birth} too, {abs((born - other_birth).days)} days from {born}: "
            f"two litters are at least {least_days} days apart, so check the dam and the date."
        )


class SiresPassOver(HardlyMeant):
    """Sires were named, and another grown male was with the dam when she may have conceived."""

    fields = ("sires",)

    def __init__(self, dam: str, others: Sequence[str], proposed: Sequence[str]) -> None:
        shares = " ".join(proposed)
        super().__init__(
            [f"{' and '.join(others)}, when {dam} may have conceived; by their days: {shares}"]
        )


class NobodyBorn(Refusal):
    """A litter without a pup, live or dead."""

    fields = ("pups",)

    def __init__(self, dam: str) -> None:
        super().__init__(
            f"A litter of {dam} needs pups, live or stillborn: a pregnancy that came to nothing is found to be a false alarm.",
            act("pairing check", dam, found="false alarm"),
        )


class SireCannotBe(Refusal):
    """A sire was not alive when the litter was conceived."""

    fields = ("sires",)

    def __init__(self, tag: str, why: str) -> None:
        super().__init__(f"{tag} cannot be the sire: {why}.")


class SireNotPossible(Refusal):
    """A settled sire that the litter does not hold possible."""

    def __init__(self, pup: str, sire: str, possible: list[str]) -> None:
        super().__init__(
            f"{sire} is no possible sire of {pup}'s litter ({listed(possible)}): correct the litter first.",
            act("litter edit"),
        )


class OneTestedSire(Refusal):
    """A test result of a pup names several sires, or nobody."""

    def __init__(self, pup: str) -> None:
        super().__init__(
            f"{pup} was born in a litter: name the one sire that a test found, or correct the litter.",
            act("litter edit"),
        )


class SettledOtherwise(Refusal):
    """Tests found two sires in a litter that has one."""

    def __init__(self, code: str, found: list[tuple[str, str]]) -> None:
        results = " and ".join(f"{sire} for {pup}" for pup, sire in found)
        super().__init__(
            f"Litter {code} has one sire, but tests say {results}: if pups may differ, say so first.",
            act("litter edit", code, pups_may_differ=True),
        )


class SireFoundByTest(Refusal):
    """The sires written for a litter leave out one that a test found."""

    def __init__(self, code: str, pup: str, sire: str) -> None:
        super().__init__(
            f"A test found that {sire} is the sire of {pup}: keep {sire} among the sires of litter {code}, or correct the test.",
            act("animal edit", pup, sire=""),
        )


class LitterKnows(Refusal):
    """A dam or birth is given for a pup, which has those of its litter."""

    def __init__(self, pup: str, code: str) -> None:
        super().__init__(
            f"{pup} was born in litter {code}, which has its dam and its birth: correct the litter.",
            act("litter edit", code),
        )


class LitterTwice(Refusal):
    """The dam has a litter of that day already."""

    fields = ("born",)

    def __init__(self, dam: str, code: str, born: date) -> None:
        super().__init__(
            f"{dam} has litter {code} of {born} already: correct that one.",
            act("litter edit", code),
        )
