"""The pups that may go to buyers, how they are related, and when each is ready for what."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

import numpy as np
from sqlmodel import Session

from colony.acts.litters.due import DueLitter, due_litters
from colony.acts.pups.growth_curves import with_curves
from colony.planning.arrays import Floats
from colony.planning.orders.sets import SaleStock, SetWanted
from colony.planning.orders.wanted import ForSale, PriceLine, is_of, price_of, still_wanted
from colony.planning.pups.gates import PupFacts
from colony.planning.pups.readiness import Readiness, readiness
from colony.store.readers.animals.herd import read_herd
from colony.store.readers.animals.lives import Lives, read_lives
from colony.store.readers.orders.details import read_prices
from colony.store.readers.orders.kept import Kept, read_kept
from colony.store.readers.orders.orders import OrderRow
from colony.store.readers.pedigree import Lineage, read_lineage
from colony.store.readers.pups.growing import read_pups
from colony.store.readers.pups.growth import read_growth


@dataclass(frozen=True)
class Shelf:
    """Every growing pup, for whom it is kept, and what is to come: read once for all orders."""

    pups: tuple[PupFacts, ...]
    kept: Mapping[str, Kept]
    lineage: Lineage
    lives: Lives
    prices: Sequence[PriceLine]
    due: Sequence[DueLitter]
    today: date

    @cached_property
    def ids(self) -> dict[str, int]:
        """The id of each animal of the book, by tag."""
        return {row.tag: row.id for row in self.lineage.herd.rows}

    @cached_property
    def animals(self) -> tuple[ForSale, ...]:
        """The pups as an order sees them."""
        return tuple(for_sale(pup) for pup in self.pups)

    @cached_property
    def kinship(self) -> Floats:
        """Kinship of the pups, shape (n, n)."""
        ids = [self.ids[pup.tag] for pup in self.pups]
        return self.lineage.kinship(ids, ids) if ids else np.zeros((0, 0))

    def price(self, animal: ForSale) -> int | None:
        """What an animal costs by the list today."""
        return price_of(animal, self.prices, self.today)

    def ready(self, pup: PupFacts, width_mm: int | None) -> Readiness:
        """When a pup may go, from a width in mm on or the species' own, whoever it is kept for."""
        rules = self.lives.of(pup.species or None).ready_rules()
        if width_mm is not None:
            rules = replace(rules, min_width_mm=width_mm)
        return readiness(replace(pup, reserved=False), rules, self.today)


def read_shelf(session: Session, today: date, *, to_come: bool = False) -> Shelf:
    """Read the pups with their growth; the litters to come too, where they are asked for."""
    lives, lineage = read_lives(session), read_lineage(session)
    growth = read_growth(session, read_herd(session), lives, today)
    pups = with_curves(read_pups(session, lives, today), growth)
    return Shelf(
        tuple(pups),
        {kept.tag: kept for kept in read_kept(session, today).values()},
        lineage,
        lives,
        read_prices(session),
        due_litters(session, today=today) if to_come else (),
        today,
    )


def for_sale(pup: PupFacts) -> ForSale:
    """A pup as an order sees it."""
    return ForSale(pup.tag, pup.sex, pup.species, pup.line, pup.widest_mm)


def had_by(shelf: Shelf, orders: Sequence[OrderRow], order: OrderRow) -> list[str]:
    """The animals that the buyer of an order has of us, or gets by this order or another."""
    return [
        tag
        for other in orders
        if other.head.buyer_id == order.head.buyer_id
        for tag in other.tags
        if tag in shelf.ids
    ]


class Candidates:
    """Who would do for which line of an order by a day, and when each would be ready."""

    def __init__(
        self, shelf: Shelf, order: OrderRow, had: Sequence[str], *, by: date | None
    ) -> None:
        self.shelf, self.order = shelf, order
        pups = shelf.pups
        self.ready_on: list[date | None] = [None] * len(pups)
        self.wants = still_wanted(order.wants, order.animals)
        would_do = np.zeros((len(self.wants), len(pups)), dtype=bool)
        for line, want in enumerate(self.wants):
            for at, (pup, animal) in enumerate(zip(pups, shelf.animals, strict=True)):
                if not is_of(want, animal) or pup.tag in shelf.kept:
                    continue
                day = shelf.ready(pup, want.width_mm).expected_ready
                if day is not None and (by is None or day <= by):
                    would_do[line, at] = True
                    self.ready_on[at] = max(day, self.ready_on[at] or day)
        limit = 1.0 if order.head.kinship is None else order.head.kinship
        wanted = tuple(want.wanted for want in self.wants)
        self.wanted = SetWanted(wanted, would_do, limit, self._had(had))

    def _had(self, had: Sequence[str]) -> Floats:
        shelf = self.shelf
        if not had or not shelf.pups:
            return np.zeros(len(shelf.pups))
        ids = [shelf.ids[pup.tag] for pup in shelf.pups]
        theirs = [shelf.ids[tag] for tag in had]
        return np.asarray(shelf.lineage.kinship(ids, theirs).max(axis=1))


def stock_of(shelf: Shelf, answers: Sequence[Candidates]) -> SaleStock:
    """The pups for the solver: full sibs of one sex, width class and price are alike."""
    first = [
        min((day for a in answers if (day := a.ready_on[at]) is not None), default=None)
        for at in range(len(shelf.pups))
    ]
    rank = tuple(
        (animal.sex, shelf.price(animal), first[at]) for at, animal in enumerate(shelf.animals)
    )
    return SaleStock(
        tuple(pup.tag for pup in shelf.pups),
        shelf.kinship,
        tuple(pup.litter for pup in shelf.pups),
        tuple(rank),
    )
