"""What may be offered for an order: the best sets, and where there is none, what comes instead."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from time import monotonic

from sqlmodel import Session

from colony.acts.orders.orders import find_order, queue
from colony.acts.orders.stock import Candidates, Shelf, had_by, read_shelf, stock_of
from colony.acts.orders.to_come import better_to_come
from colony.notation.money import in_major
from colony.planning.orders.sets import SetFound, best_sets, sets_for
from colony.planning.orders.wanted import agreed, still_wanted
from colony.refusals.orders import WantsNobody
from colony.store.readers.orders.orders import OrderRow, read_orders

SECONDS = 10.0
"""How long the solver may take for an answer."""

SETS = 3
"""How many sets are offered for one order."""


@dataclass(frozen=True)
class SetOffered:
    """One set: its animals, how related they are, what they cost and when the last is ready."""

    tags: list[str]
    greatest_kinship: float
    mean_kinship: float
    price: int | float | None
    ready_on: date | None


@dataclass(frozen=True)
class Offer:
    """What may be offered for an order; `instead` says what would do where nothing does.

    Without `proven`, better sets may be there: `gap` is how much lower the mean kinship may be.
    """

    order: int
    sets: list[SetOffered]
    proven: bool
    instead: str | None
    gap: float | None = 0.0


def offer(
    session: Session, *, order: str, by: date | None = None, seconds: float = SECONDS, today: date
) -> Offer:
    """Find the best sets for an order, of pups that are ready by its day; nothing is written.

    Parameters
    ----------
    by
        Another last day than the order's own.

    Raises
    ------
    NoSuchOrder, WantsNobody
    """
    code = find_order(session, order).code
    orders = read_orders(session, today)
    row = next(each for each in orders if each.code == code)
    if not row.wants:
        raise WantsNobody(code)
    if not still_wanted(row.wants, row.animals):
        return Offer(int(code), [], proven=True, instead="All that it asks for is kept.")
    shelf = read_shelf(session, today, to_come=True)
    had = had_by(shelf, orders, row)
    answer = Candidates(shelf, row, had, by=_until(row, by, today))
    found = sets_for(
        stock_of(shelf, [answer]), answer.wanted, most=SETS, seconds=seconds, clock=monotonic
    )
    sets = [_offered(shelf, answer, each) for each in found.sets if each is not None]
    instead = None if sets else _instead(shelf, row, had, answer, seconds)
    return Offer(int(code), sets, found.proven, instead, found.gap)


def fill(session: Session, *, seconds: float = SECONDS, today: date) -> list[Offer]:
    """Find a set for as many open orders as possible at once, no animal twice.

    The orders are served as they stand in the queue; nothing is written.
    """
    orders = read_orders(session, today)
    waiting = [row for row in queue(orders) if row.is_open and still_wanted(row.wants, row.animals)]
    if not waiting:
        return []
    shelf = read_shelf(session, today, to_come=True)
    answers = [
        Candidates(shelf, row, had_by(shelf, orders, row), by=_until(row, None, today))
        for row in waiting
    ]
    found = best_sets(
        stock_of(shelf, answers), [a.wanted for a in answers], seconds=seconds, clock=monotonic
    )
    return [
        Offer(
            int(row.code),
            [] if each is None else [_offered(shelf, answer, each)],
            found.proven,
            _instead(shelf, row, had_by(shelf, orders, row), answer, 1.0) if each is None else None,
            found.gap,
        )
        for row, answer, each in zip(waiting, answers, found.sets, strict=True)
    ]


def _until(row: OrderRow, by: date | None, today: date) -> date:
    """Until when a pup may become ready: the day of the order, and today where it says none."""
    return max(by or row.head.needed_by or today, today)


def _offered(shelf: Shelf, answer: Candidates, found: SetFound) -> SetOffered:
    animals = [shelf.animals[at] for at in found.members]
    listed = {animal.tag: shelf.price(animal) for animal in animals}
    prices = [p for p in agreed(answer.wants, animals, listed).values() if p is not None]
    days = [day for at in found.members if (day := answer.ready_on[at])]
    whole = len(prices) == len(animals)
    return SetOffered(
        [animal.tag for animal in animals],
        round(found.greatest_kinship, 6),
        round(found.mean_kinship, 6),
        in_major(sum(prices), answer.order.currency) if whole else None,
        max(days, default=None),
    )


def _instead(
    shelf: Shelf, row: OrderRow, had: Sequence[str], answer: Candidates, seconds: float
) -> str:
    """What would nearly do, and when something better comes."""
    said = [
        _least_related(shelf, row, answer, seconds),
        _later(shelf, row, had, seconds),
    ]
    return " ".join(filter(None, said)) or "Nothing that would do is here or expected."


def _least_related(shelf: Shelf, row: OrderRow, answer: Candidates, seconds: float) -> str:
    """The least related set there is by then, where that is what stands against it."""
    if row.head.kinship is None:
        return _too_few(answer)
    loose = replace(answer.wanted, limit=1.0)
    found = sets_for(stock_of(shelf, [answer]), loose, most=1, seconds=seconds, clock=monotonic)
    best = next((each for each in found.sets if each is not None), None)
    if best is None:
        return _too_few(answer)
    tags = ", ".join(shelf.animals[at].tag for at in best.members)
    return f"Least related are {tags}, at kinship {best.greatest_kinship:.4g}."


def _too_few(answer: Candidates) -> str:
    by_line = answer.wanted.would_do.sum(axis=1).tolist()
    lacking = [
        f"{have} of {want.wanted} {want.sex if want.sex != 'U' else 'of any sex'}"
        for have, want in zip(by_line, answer.wants, strict=True)
        if have < want.wanted
    ]
    return f"By then there are {', '.join(lacking)}." if lacking else ""


def _later(shelf: Shelf, row: OrderRow, had: Sequence[str], seconds: float) -> str:
    """The first day by which pups that are here would do, or else the litters to come."""
    answer = Candidates(shelf, row, had, by=None)
    stock = stock_of(shelf, [answer])
    days = sorted({day for day in answer.ready_on if day is not None})
    low, high = 0, len(days) - 1
    best: tuple[date, SetFound] | None = None
    while low <= high:
        middle = (low + high) // 2
        until = Candidates(shelf, row, had, by=days[middle])
        found = sets_for(stock, until.wanted, most=1, seconds=seconds, clock=monotonic)
        each = next((one for one in found.sets if one is not None), None)
        if each is None:
            low = middle + 1
        else:
            best, high = (days[middle], each), middle - 1
    if best is not None:
        tags = ", ".join(shelf.animals[at].tag for at in best[1].members)
        return f"{tags} would do, ready about {best[0]}."
    return better_to_come(shelf, row, had)
