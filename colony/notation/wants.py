"""How a breeder writes what a buyer asks for: ``2F1M motoro, 12cm, unrelated, 250 each``.

First how many of each sex, and of what: a species or a line of the house. Then, in any order,
the least disc width, how related they may be, and the price of each.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass

from colony.notation.measures import parse_length_mm
from colony.notation.money import parse_amount
from colony.notation.pups import PupCount, parse_pups
from colony.notation.tags import parse_text
from colony.refusals.base import WrongUse
from colony.refusals.orders import UnreadableWant, WantTwice

KINSHIPS = {
    "unrelated": 0.0,
    "no kin": 0.0,
    "cousins": 0.0625,
    "half sibs": 0.125,
    "half-sibs": 0.125,
    "sibs": 0.25,
    "full sibs": 0.25,
}
"""Words for the greatest kinship within a set; of parents who share no ancestor (Wright 1922)."""

_COUNT = re.compile(r"((?:\d{1,3}\s*[fmu]?[\s+]*)+)(.*)", re.IGNORECASE | re.ASCII | re.DOTALL)
_KIN = re.compile(r"(?:kin|kinship|up to)\s+(0?[.,]\d{1,6}|0|1)", re.IGNORECASE | re.ASCII)
_EACH = re.compile(r"(.+?)\s+each", re.IGNORECASE)


@dataclass(frozen=True)
class Want:
    """What is asked for: how many of each sex (unknown is any), of what, how large, how related.

    `what` is a species or a line as it was typed; `kinship` the greatest within the set and to
    what the buyer has of us already, None where the buyer does not mind.
    """

    count: PupCount
    what: str | None = None
    width_mm: int | None = None
    kinship: float | None = None
    price_minor: int | None = None


def parse_want(text: str, length_unit: str = "cm", currency: str = "EUR") -> Want:
    """Read a want; a comma before a space, or a semicolon, parts what is said of it.

    Raises
    ------
    UnreadableWant
        It does not begin with a number, or a part says nothing that is known.
    WantTwice
        Two widths, two kinships or two prices.
    TooManyPups
    """
    first, *parts = [
        part.strip() for part in re.split(r",\s+|;|,$", text.strip()) if part.strip()
    ] or [""]
    matched = _COUNT.fullmatch(first)
    if matched is None:
        raise UnreadableWant(text, first)
    try:
        count = parse_pups(matched[1])
    except WrongUse as wrong:
        raise UnreadableWant(text, first) from wrong
    if not count.total:
        raise UnreadableWant(text, first)
    what = parse_text(matched[2].strip(), "species or line") if matched[2].strip() else None
    said: dict[str, int | float] = {}
    for part in parts:
        name, value = _read(part, length_unit, currency) or ("", 0)
        if not name:
            raise UnreadableWant(text, part)
        if name in said:
            raise WantTwice(text, part)
        said[name] = value
    width, price = said.get("width"), said.get("price")
    return Want(
        count,
        what,
        None if width is None else int(width),
        said.get("kinship"),
        None if price is None else int(price),
    )


def say_kinship(kinship: float | None) -> str:
    """How related a set may be, in the words that `parse_want` takes; "" where nobody minds."""
    if kinship is None:
        return ""
    return next((word for word, k in KINSHIPS.items() if k == kinship), f"kin {kinship:g}")


def _read(part: str, length_unit: str, currency: str) -> tuple[str, int | float] | None:
    if part.casefold() in KINSHIPS:
        return "kinship", KINSHIPS[part.casefold()]
    if kin := _KIN.fullmatch(part):
        return "kinship", float(kin[1].replace(",", "."))
    readers: tuple[tuple[str, Callable[[], int]], ...] = (
        ("price", lambda: _price(part, currency)),
        ("width", lambda: parse_length_mm(part.lstrip(">= ").removesuffix("+"), length_unit)),
    )
    for name, read in readers:
        try:
            return name, read()
        except WrongUse:
            continue
    return None


def _price(part: str, currency: str) -> int:
    each = _EACH.fullmatch(part)
    return parse_amount(each[1] if each else part if currency in part.upper() else "", currency)
