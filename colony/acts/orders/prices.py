"""The price list and what the house spends."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlmodel import Session, col, select

from colony.acts.animals.days import refuse_future
from colony.notation.money import in_major, parse_amount, say_money
from colony.records import Animal, Expense, Price, Species
from colony.records.rules import broken
from colony.refusals.money import NoSuchPrice, PriceOfWhat
from colony.store.journal.journal import tell
from colony.store.lookup import find_animal, find_species
from colony.store.settings import read_settings


@dataclass(frozen=True)
class PricePage:
    """One price, in the unit that is spoken of; `of` is what it is of, in words."""

    price: int
    of: str
    amount: int | float
    currency: str
    animal: str | None
    species: str | None
    line: str | None
    sex: str | None
    from_width_mm: int | None
    valid_from: date
    valid_until: date | None


@dataclass(frozen=True)
class ExpensePage:
    """What was spent on a day."""

    on: date
    kind: str
    amount: int | float
    currency: str
    species: str | None
    note: str | None


def set_price(
    session: Session, *, amount: str, facts: Mapping[str, Any], on: date, today: date
) -> PricePage:
    """Write a price of one animal or of a kind; it holds from a day on, before an older one.

    Raises
    ------
    UnreadableAmount, OtherCurrency, NoSuchTag, NoSuchSpecies
    PriceOfWhat
        It is of an animal and of a species, or it ends before it begins.
    """
    currency = read_settings(session).currency
    animal, species = facts.get("animal"), facts.get("species")
    row: dict[str, Any] = {
        "animal_id": find_animal(session, animal).id if animal else None,
        "species_id": find_species(session, species).id if species else None,
        "line": facts.get("line") or None,
        "sex": facts.get("sex"),
        "from_width_mm": facts.get("from_width_mm"),
        "price_minor": parse_amount(amount, currency),
        "currency": currency,
        "valid_from": on,
        "valid_until": facts.get("valid_until"),
    }
    if wrong := broken(Price, **row):
        raise PriceOfWhat(wrong)
    price = Price(**row)
    session.add(price)
    session.flush()
    page = next(
        each for each in list_prices(session, ended_too=True, today=today) if each.price == price.id
    )
    tell(session, f"{page.of}: {say_money(price.price_minor, currency)}")
    return page


def end_price(session: Session, *, price: int, on: date, today: date) -> PricePage:
    """Let a price hold no longer than a day.

    Raises
    ------
    NoSuchPrice, PriceOfWhat
    """
    record = session.get(Price, price)
    if record is None:
        raise NoSuchPrice(price)
    if wrong := broken(Price, valid_from=record.valid_from, valid_until=on):
        raise PriceOfWhat(wrong)
    record.valid_until = on
    session.add(record)
    session.flush()
    tell(session, f"price {price} ends on {on}")
    return next(
        each for each in list_prices(session, ended_too=True, today=today) if each.price == price
    )


def list_prices(session: Session, *, ended_too: bool = False, today: date) -> list[PricePage]:
    """The prices that hold or will hold, or all there ever were."""
    query = (
        select(Price, Animal.tag, Species.name)
        .join(Animal, col(Price.animal_id) == col(Animal.id), isouter=True)
        .join(Species, col(Price.species_id) == col(Species.id), isouter=True)
        .order_by(col(Price.id))
    )
    return [
        _page(price, tag, species)
        for price, tag, species in session.exec(query)
        if ended_too or (price.valid_until or today) >= today
    ]


def spend(
    session: Session,
    *,
    kind: str,
    amount: str,
    species: str | None = None,
    note: str | None = None,
    on: date,
    today: date,
) -> ExpensePage:
    """Write down what the house spent.

    Raises
    ------
    UnreadableAmount, OtherCurrency, NoSuchSpecies, NotYet
    """
    refuse_future("An expense", on, today)
    currency = read_settings(session).currency
    found = find_species(session, species) if species else None
    expense = Expense(
        spent_on=on,
        kind=kind,
        amount_minor=parse_amount(amount, currency, least=1),
        currency=currency,
        species_id=found.id if found else None,
        note=note or None,
    )
    session.add(expense)
    session.flush()
    tell(session, f"{kind}: {say_money(expense.amount_minor, currency)} spent")
    return _expense(expense, found.name if found else None)


def list_expenses(session: Session, *, since: date | None = None) -> list[ExpensePage]:
    """What was spent, the last first."""
    query = (
        select(Expense, Species.name)
        .join(Species, col(Expense.species_id) == col(Species.id), isouter=True)
        .order_by(col(Expense.spent_on).desc(), col(Expense.id).desc())
    )
    if since is not None:
        query = query.where(col(Expense.spent_on) >= since)
    return [_expense(expense, species) for expense, species in session.exec(query)]


def _page(price: Price, tag: str | None, species: str | None) -> PricePage:
    words = [tag or species or "", price.line or "", price.sex or ""]
    return PricePage(
        price=price.id or 0,
        of=" ".join(filter(None, words)) or "any",
        amount=in_major(price.price_minor, price.currency),
        currency=price.currency,
        animal=tag,
        species=species,
        line=price.line,
        sex=price.sex,
        from_width_mm=price.from_width_mm,
        valid_from=price.valid_from,
        valid_until=price.valid_until,
    )


def _expense(expense: Expense, species: str | None) -> ExpensePage:
    return ExpensePage(
        expense.spent_on,
        expense.kind,
        in_major(expense.amount_minor, expense.currency),
        expense.currency,
        species,
        expense.note,
    )
