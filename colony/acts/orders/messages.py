"""What is told to a buyer: an order's animals or best set, and the list of what is free."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from sqlmodel import Session

from colony.acts.orders.offers import offer
from colony.acts.orders.orders import as_page, order_row
from colony.acts.orders.stock import Shelf, read_shelf
from colony.notation.money import in_major, say_money
from colony.papers.sale.message import ToldAnimal, kinship_in_words, message_text
from colony.planning.orders.wanted import ForSale, agreed
from colony.store.readers.orders.orders import OrderRow
from colony.store.settings import read_settings


@dataclass(frozen=True)
class Available:
    """A pup that is ready and free."""

    tag: str
    sex: str
    species: str
    disc_width_mm: int | None
    dam: str | None
    sires: list[str]
    price: int | float | None
    currency: str


def order_message(session: Session, *, order: str, today: date) -> str:
    """The message for an order: what is kept for it, or else the best set there is.

    Raises
    ------
    NoSuchOrder, WantsNobody
    """
    row = order_row(session, order, today)
    page, shelf = as_page(row), read_shelf(session, today)
    if row.animals:
        animals, days = list(row.animals), {}
        opening = f"Order {row.code}, {row.buyer}: these are kept for you"
        opening += f" until {row.kept_until}:" if row.kept_until else ":"
    else:
        found = offer(session, order=row.code, today=today)
        if not found.sets:
            return f"Order {row.code}, {row.buyer}: {found.instead}"
        best = found.sets[0]
        by_tag = {animal.tag: animal for animal in shelf.animals}
        animals = [by_tag[tag] for tag in best.tags]
        days = dict.fromkeys(best.tags, best.ready_on) if best.ready_on else {}
        opening = f"Order {row.code}, {row.buyer}: this is what we can offer ({page.want}):"
    closing = []
    if page.owed:
        closing.append(f"Still owed: {say_money(row.money.owed or 0, row.currency)}.")
    told = [
        told_of(
            shelf,
            animal,
            _price(row, shelf, animals).get(animal.tag),
            row.currency,
            days.get(animal.tag),
        )
        for animal in animals
    ]
    return message_text(opening, told, _related(shelf, animals), closing, today)


def available_pups(
    session: Session, *, species: str | None = None, sex: str | None = None, today: date
) -> list[Available]:
    """Every pup that is ready and kept for nobody, the widest first."""
    shelf = read_shelf(session, today)
    currency = read_settings(session).currency
    found = []
    for pup, animal in zip(shelf.pups, shelf.animals, strict=True):
        right = species in {None, pup.species} and sex in {None, pup.sex}
        if right and pup.tag not in shelf.kept and shelf.ready(pup, None).ready:
            price = shelf.price(animal)
            dam, sires = _parents(shelf, pup.tag)
            found.append(
                Available(
                    pup.tag,
                    pup.sex,
                    pup.species,
                    round(animal.width_mm) or None,
                    dam,
                    list(sires),
                    None if price is None else in_major(price, currency),
                    currency,
                )
            )
    return sorted(found, key=lambda pup: (pup.species, -(pup.disc_width_mm or 0), pup.tag))


def availability_message(pups: Sequence[Available], today: date | None = None) -> str:
    """The list of what is ready and free, as text."""
    if not pups:
        return "No pup is ready and free today."
    told = [
        ToldAnimal(
            pup.tag,
            pup.sex,
            pup.species,
            pup.disc_width_mm,
            pup.dam,
            tuple(pup.sires),
            "" if pup.price is None else f"{pup.currency} {pup.price:,}",
            None,
        )
        for pup in pups
    ]
    return message_text("Ready and free today:", told, "", (), today or date.max)


def told_of(
    shelf: Shelf, animal: ForSale, price: int | None, currency: str, ready_on: date | None
) -> ToldAnimal:
    """An animal as a buyer reads of it."""
    dam, sires = _parents(shelf, animal.tag)
    said = "" if price is None else say_money(price, currency)
    return ToldAnimal(
        animal.tag, animal.sex, animal.species, animal.width_mm, dam, sires, said, ready_on
    )


def _price(row: OrderRow, shelf: Shelf, animals: Sequence[ForSale]) -> dict[str, int | None]:
    return agreed(row.wants, animals, {animal.tag: shelf.price(animal) for animal in animals})


def _parents(shelf: Shelf, tag: str) -> tuple[str | None, tuple[str, ...]]:
    parents, row = shelf.lineage.parents, shelf.lineage.herd.by_id(shelf.ids[tag])
    dam = parents.tag(parents.dam_id(row))
    sires = [parents.tag(sire) for sire, _ in parents.sires(row)]
    return dam, tuple(sire for sire in sires if sire is not None)


def _related(shelf: Shelf, animals: Sequence[ForSale]) -> str:
    ids = [shelf.ids[animal.tag] for animal in animals]
    if len(ids) <= 1:
        return ""
    kin = shelf.lineage.kinship(ids, ids)
    pairs = kin[np.triu_indices(len(ids), k=1)]
    known = min(each.completeness for each in shelf.lineage.range_of(ids))
    return kinship_in_words(float(pairs.max()), float(pairs.mean()), len(ids), known)
