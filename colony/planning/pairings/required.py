"""Required pairs: refused where they may not be, or not together."""

from collections import Counter

from colony.planning.pairings.eligibility import why_not_together
from colony.planning.pairings.open_pairs import APART, NO_TANK, OPEN, RULED_OUT, OpenPairs
from colony.planning.pairings.search.count import LitterCount
from colony.refusals.pairings import CannotBePaired, PairsDoNotFit


def refuse_impossible(pairs: OpenPairs) -> None:
    """Refuse required pairs that may not be.

    Raises
    ------
    CannotBePaired, PairsDoNotFit
    """
    for dam, sire in sorted(pairs.request.required_pairs):
        why = _why(pairs, dam, sire)
        if why:
            raise CannotBePaired(dam, sire, why)
    for number, parent in enumerate(("dam", "sire")):
        counts = Counter(pair[number] for pair in pairs.request.required_pairs)
        for tag, count in sorted(counts.items()):
            most = 1 if parent == "dam" else int(pairs.capacity[pairs.numbers[tag]])
            if count > most:
                theirs = [pair for pair in pairs.request.required_pairs if pair[number] == tag]
                raise PairsDoNotFit(theirs, f"{tag} can have {most} of them")
    if (
        pairs.request.litters is not None
        and len(pairs.request.required_pairs) > pairs.request.litters
    ):
        raise PairsDoNotFit(
            tuple(pairs.request.required_pairs), f"{pairs.request.litters} litters are asked for"
        )


def refuse_unfitting(pairs: OpenPairs, counted: LitterCount) -> None:
    """Refuse required pairs for which tanks or numbers of litters do not suffice.

    Raises
    ------
    PairsDoNotFit
    """
    if counted.impossible or (pairs.request.required_pairs and not counted.aim.litters):
        why = "the tanks, or the litters asked for of a species or line, do not allow it"
        raise PairsDoNotFit(tuple(pairs.request.required_pairs), why)


def _why(pairs: OpenPairs, dam: str, sire: str) -> list[str]:
    alone = [f"{tag}: {r.text}" for tag in (dam, sire) for r in pairs.alone.get(tag, ())]
    unknown = [tag for tag in (dam, sire) if tag not in pairs.alone and tag not in pairs.numbers]
    alone += [f"{tag} is not among the animals" for tag in unknown]
    if alone:
        return alone
    animals = {animal.tag: animal for animal in pairs.stock.animals}
    if animals[dam].sex == animals[sire].sex or animals[dam].sex == "M":
        return ["a dam is a female and a sire a male"]
    bar = pairs.bar[pairs.numbers[dam], pairs.numbers[sire]]
    if bar == OPEN:
        return []
    if bar == RULED_OUT:
        both = why_not_together(animals[dam], animals[sire], pairs.request.overridden)
        return [reason.text for reason in both]
    f = float(pairs.f[pairs.numbers[dam], pairs.numbers[sire]])
    plain = {APART: "they are to be kept apart", NO_TANK: "no tank is large enough for both"}
    return [plain.get(int(bar), f"F of the pups would be {f:.4f}, over the limit")]
