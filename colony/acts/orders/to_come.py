"""What litters to come would give an order: from which dam, how related, ready about when."""

from collections.abc import Sequence
from datetime import date

import numpy as np

from colony.acts.litters.due import DueLitter
from colony.acts.orders.stock import Shelf
from colony.planning.orders.wanted import ForSale, WantLine, is_of, still_wanted
from colony.planning.pups.gates import PupFacts
from colony.store.readers.orders.orders import OrderRow


def better_to_come(shelf: Shelf, row: OrderRow, had: Sequence[str]) -> str:
    """The first litter that is due whose pups would fit beside what is here; "" for none.

    It is told of the line that has the fewest: its kinship with the least related pup that
    would do for the other lines, or with what the buyer has already.
    """
    limit = 1.0 if row.head.kinship is None else row.head.kinship
    told: list[tuple[date, str]] = []
    for due in shelf.due:
        for want in still_wanted(row.wants, row.animals):
            day = ready_day(shelf, due, want)
            if day is None:
                continue
            kin = _kinship(shelf, due, row, want, had)
            if kin <= limit:
                sex = {"F": "a female", "M": "a male"}.get(want.sex, "a pup")
                told.append(
                    (
                        day,
                        f"{sex} of {due.dam}'s next litter would be at {kin:.4g}, ready about {day}",
                    )
                )
    if not told:
        return ""
    _, words = min(told)
    return f"{words[0].upper()}{words[1:]}."


def ready_day(shelf: Shelf, due: DueLitter, want: WantLine) -> date | None:
    """When a pup of a litter to come would likely be ready for a want; None if never or unlike."""
    dam = shelf.lineage.herd.by_id(shelf.ids[due.dam])
    species = dam.species or ""
    sex = want.sex if want.sex in {"F", "M"} else "F"
    if not is_of(want, ForSale("", sex, species, dam.line)):
        return None
    pup = PupFacts(
        tag=f"next litter of {due.dam}",
        species=species,
        sex=sex,
        born=due.likely,
        prior=shelf.lives.of(species or None).growth(sex),
    )
    return shelf.ready(pup, want.width_mm).expected_ready


def _kinship(
    shelf: Shelf, due: DueLitter, row: OrderRow, want: WantLine, had: Sequence[str]
) -> float:
    """Kinship of a pup to come with the least related that would do beside it, at its greatest.

    A pup's kinship with anybody is the mean of its parents' (Malecot 1948).
    """
    others = [
        [
            shelf.ids[animal.tag]
            for animal in shelf.animals
            if is_of(other, animal) and animal.tag not in shelf.kept
        ]
        for other in row.wants
        if other is not want
    ]
    beside = [found for found in others if found]
    parents = [shelf.ids[due.dam], *(shelf.ids[sire] for sire in due.sires if sire in shelf.ids)]
    worst = [0.0]
    if had:
        worst.append(_with(shelf, parents, [shelf.ids[tag] for tag in had], least=False))
    worst += [_with(shelf, parents, found, least=True) for found in beside]
    return max(worst)


def _with(shelf: Shelf, parents: Sequence[int], others: Sequence[int], *, least: bool) -> float:
    kin = shelf.lineage.kinship(list(parents), list(others))
    sires = kin[1:].mean(axis=0) if len(parents) > 1 else np.zeros(len(others))
    pup = (kin[0] + sires) / 2
    return float(pup.min() if least else pup.max())
