"""What an order asks for: read as it is typed, kept as lines, and said again."""

from collections.abc import Sequence
from dataclasses import replace

from sqlmodel import Session, func, select

from colony.notation.house import length_number, units_now
from colony.notation.money import in_major, minor_digits
from colony.notation.pups import PupCount
from colony.notation.wants import Want, parse_want, say_kinship
from colony.planning.orders.wanted import WantLine
from colony.records import Animal, Order, OrderWant
from colony.refusals.animals import NoSuchSpecies
from colony.store.lookup import find_species
from colony.store.settings import read_settings


def want_in_words(wants: Sequence[WantLine], kinship: float | None, currency: str) -> str:
    """What is wanted, as it may be typed: ``2F1M motoro, 12cm, unrelated``; several with a plus."""
    kinds: dict[WantLine, dict[str, int]] = {}
    for line in wants:
        kind = replace(line, sex="U", wanted=1)
        kinds.setdefault(kind, {})
        kinds[kind][line.sex] = kinds[kind].get(line.sex, 0) + line.wanted
    return " + ".join(
        _said(kind, PupCount(n.get("F", 0), n.get("M", 0), n.get("U", 0)), kinship, currency)
        for kind, n in kinds.items()
    )


def _said(kind: WantLine, count: PupCount, kinship: float | None, currency: str) -> str:
    what = kind.line or kind.species
    unit = units_now().length
    price = kind.price_minor
    number = str(count.unknown) if count.unknown == count.total else str(count)
    parts = (
        f"{number} {what}" if what else number,
        f"{length_number(kind.width_mm)}{unit}" if kind.width_mm else "",
        say_kinship(kinship),
        ""
        if price is None
        else f"{in_major(price, currency):.{minor_digits(currency)}f} each"
        if price % 10 ** minor_digits(currency)
        else f"{in_major(price, currency)} each",
    )
    return ", ".join(part for part in parts if part)


def write_wants(session: Session, order: Order, texts: Sequence[str]) -> None:
    """Write what an order asks for, as it was typed, and the least kinship that a want names.

    Raises
    ------
    UnreadableWant, WantTwice, NoSuchSpecies
    """
    settings = read_settings(session)
    wants = [parse_want(text, settings.length_unit, order.currency) for text in texts]
    for want in wants:
        species_id, line = _kind(session, want)
        for sex, count in zip(
            "FMU", (want.count.females, want.count.males, want.count.unknown), strict=True
        ):
            if count:
                session.add(
                    OrderWant(
                        order_id=order.id or 0,
                        sex=sex,
                        wanted=count,
                        species_id=species_id,
                        line=line,
                        width_mm=want.width_mm,
                        price_minor=want.price_minor,
                    )
                )
    limits = [want.kinship for want in wants if want.kinship is not None]
    order.kinship = min(limits, default=None)
    session.add(order)
    session.flush()


def _kind(session: Session, want: Want) -> tuple[int | None, str | None]:
    """The species of a want, or the line of the house where it names one.

    Raises
    ------
    NoSuchSpecies
    """
    if want.what is None:
        return None, None
    try:
        return find_species(session, want.what).id, None
    except NoSuchSpecies:
        lines = select(Animal.line, Animal.species_id).where(
            func.lower(Animal.line) == want.what.lower()
        )
        found = session.exec(lines).first()
        if found is None:
            raise
        return None, found[0]
