"""What an order asks for, what there is, and what it comes to in money."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

ANY = "U"
"""The sex of a want that any sex answers."""


@dataclass(frozen=True)
class WantLine:
    """So many of one sex (`ANY` is either), of a species or a line, from a width in mm on.

    `price_minor` is what each costs by agreement, in minor units; None as the price list says.
    """

    sex: str
    wanted: int
    species: str | None = None
    line: str | None = None
    width_mm: int | None = None
    price_minor: int | None = None


@dataclass(frozen=True)
class ForSale:
    """An animal as an order sees it; `width_mm` its greatest measured width."""

    tag: str
    sex: str
    species: str
    line: str | None = None
    width_mm: float = 0.0


@dataclass(frozen=True)
class PriceLine:
    """A price: of one animal, or of every animal of a species, line and sex from a width on."""

    price_minor: int
    since: date
    until: date | None = None
    tag: str | None = None
    species: str | None = None
    line: str | None = None
    sex: str | None = None
    from_width_mm: int = 0


@dataclass(frozen=True)
class Money:
    """What an order comes to, in minor units; `owed` is None where no price is known."""

    price: int | None
    deposit: int
    paid: int
    discount: int

    @property
    def owed(self) -> int | None:
        """The price less what was paid and let off, and never less than nothing."""
        return None if self.price is None else max(self.price - self.paid - self.discount, 0)


def is_of(line: WantLine, animal: ForSale) -> bool:
    """Whether an animal is of the sex and kind of a want, however wide it is."""
    return (
        line.sex in {ANY, animal.sex}
        and line.species in {None, animal.species}
        and (line.line is None or line.line.casefold() == (animal.line or "").casefold())
    )


def answers(
    wants: Sequence[WantLine],
    animals: Sequence[ForSale],
    fits: Callable[[WantLine, ForSale], bool] = is_of,
) -> list[int | None]:
    """Which want each animal answers: the first that it fits and that is not full; None for none."""
    left = [line.wanted for line in wants]
    found: list[int | None] = []
    for animal in animals:
        at = next((n for n, line in enumerate(wants) if left[n] and fits(line, animal)), None)
        if at is not None:
            left[at] -= 1
        found.append(at)
    return found


def still_wanted(wants: Sequence[WantLine], animals: Sequence[ForSale]) -> tuple[WantLine, ...]:
    """What is wanted beyond some animals, each of which answers the first want that it is of."""
    got = answers(wants, animals)
    left = [line.wanted - got.count(at) for at, line in enumerate(wants)]
    return tuple(
        replace(line, wanted=count) for line, count in zip(wants, left, strict=True) if count
    )


def price_of(animal: ForSale, prices: Iterable[PriceLine], on: date) -> int | None:
    """What an animal costs by the list on a day; the price that says most of it holds.

    Its own price comes first, then by how much is said (species, line, sex), the widest class,
    and the newest.
    """
    holding = [p for p in prices if _holds(p, animal, on)]
    if not holding:
        return None
    return max(holding, key=_rank).price_minor


def price_of_all(
    wants: Sequence[WantLine],
    animals: Sequence[ForSale],
    listed: Mapping[str, int | None],
) -> int | None:
    """What the animals of an order come to, or what is wanted where none is kept yet.

    Parameters
    ----------
    listed
        What each animal costs by the list, by tag; agreed prices come before it.
    """
    if not animals:
        known = [(w.wanted, w.price_minor) for w in wants]
        return (
            sum(count * price for count, price in known if price is not None)
            if known and all(price is not None for _, price in known)
            else None
        )
    found = [prices for prices in agreed(wants, animals, listed).values() if prices is not None]
    return sum(found) if found else None


def agreed(
    wants: Sequence[WantLine], animals: Sequence[ForSale], listed: Mapping[str, int | None]
) -> dict[str, int | None]:
    """What each animal of an order costs: by the want that it answers, else by the list."""
    prices: dict[str, int | None] = {}
    for animal, at in zip(animals, answers(wants, animals), strict=True):
        price = None if at is None else wants[at].price_minor
        prices[animal.tag] = listed.get(animal.tag) if price is None else price
    return prices


def _holds(price: PriceLine, animal: ForSale, on: date) -> bool:
    if not price.since <= on <= (price.until or date.max):
        return False
    if price.tag is not None:
        return price.tag == animal.tag
    line = WantLine(price.sex or ANY, 1, price.species, price.line)
    sexed = price.sex is None or price.sex == animal.sex
    return sexed and is_of(line, animal) and animal.width_mm >= price.from_width_mm


def _rank(price: PriceLine) -> tuple[bool, int, int, date]:
    said = sum(fact is not None for fact in (price.species, price.line, price.sex))
    return price.tag is not None, said, price.from_width_mm, price.since
