"""What came in and went out, what is owed, and the receipt of an order."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from sqlmodel import Session, col, select

from colony.acts.orders.orders import as_page, order_row
from colony.acts.orders.wants import want_in_words
from colony.exchange.folder.folder import delimited_text
from colony.exchange.text.writing import write_file
from colony.notation.money import in_major, say_money
from colony.papers.sale.months import months_svg
from colony.papers.sale.receipt import Receipt, ReceiptLine, receipt_pdf
from colony.planning.orders.months import IN, OUT, Flow, MonthOfMoney, by_month, split
from colony.records import Expense, Species
from colony.refusals.money import NothingToReceive
from colony.store.readers.orders.buyers import read_buyers
from colony.store.readers.orders.orders import OrderRow, read_orders
from colony.store.settings import read_settings


@dataclass(frozen=True)
class MonthPage:
    """One month in the unit that is spoken of."""

    month: str
    currency: str
    income: int | float
    expenses: int | float
    left: int | float
    by_kind: dict[str, int | float]
    by_species: dict[str, int | float]


@dataclass(frozen=True)
class Owed:
    """What a buyer owes for an order."""

    order: int
    buyer: str
    state: str
    owed: int | float
    currency: str


def money_by_month(session: Session, *, since: date | None = None, today: date) -> list[MonthPage]:
    """Income and expenses of each month, by kind and by species."""
    return [_page(month) for month in _months(session, since, today)]


def owed_to_the_house(session: Session, *, today: date) -> list[Owed]:
    """What is owed for orders that were handed over, or whose animals are kept."""
    return [
        Owed(page.order, page.buyer, page.state, page.owed, page.currency)
        for page in map(as_page, read_orders(session, today))
        if page.owed and page.state in {"reserved", "paid", "shipped", "collected", "closed"}
    ]


def write_months(
    session: Session, *, path: Path, since: date | None, overwrite: bool, today: date
) -> int:
    """Write the months as a table (``.csv``) or a picture (``.svg``); how many there are.

    Raises
    ------
    WouldOverwrite, CannotWrite
    """
    months = _months(session, since, today)
    if path.suffix.casefold() == ".svg":
        write_file(path, months_svg(months), overwrite=overwrite)
        return len(months)
    species = sorted({name for month in months for name in month.by_species})
    heads = ["month", "currency", "income", "expenses", "left", *species]
    lines = [
        [
            page.month,
            page.currency,
            *map(str, (page.income, page.expenses, page.left)),
            *(str(page.by_species.get(name, 0)) for name in species),
        ]
        for page in map(_page, months)
    ]
    write_file(path, delimited_text(heads, lines), overwrite=overwrite)
    return len(months)


def write_receipt(
    session: Session, *, order: str, path: Path, overwrite: bool, today: date
) -> Path:
    """Write the receipt of an order as a PDF of one page.

    Raises
    ------
    NoSuchOrder, NothingToReceive, WouldOverwrite, CannotWrite
    """
    row = order_row(session, order, today)
    if row.money.paid <= 0:
        raise NothingToReceive(row.code)
    write_file(path, receipt_pdf(_receipt(session, row, today)), overwrite=overwrite)
    return path


def _receipt(session: Session, row: OrderRow, today: date) -> Receipt:
    settings = read_settings(session)
    buyer = next(each for each in read_buyers(session) if each.id == row.head.buyer_id)

    def money(minor: int | None) -> str:
        return "" if minor is None else say_money(minor, row.currency)

    animals = [
        ReceiptLine(f"{animal.tag}, {animal.species} {animal.sex}", money(row.prices[animal.tag]))
        for animal in row.animals
    ] or [
        ReceiptLine(
            want_in_words(row.wants, row.head.kinship, row.currency), money(row.money.price)
        )
    ]
    paid = [
        ReceiptLine(f"{payment.kind} on {payment.on}", money(payment.amount_minor))
        for payment in row.payments
    ]
    return Receipt(
        house=settings.house_name,
        address=settings.house_address,
        details=settings.house_details,
        number=row.code,
        on=today,
        buyer=buyer.called,
        buyer_address=buyer.address or "",
        animals=tuple(animals),
        payments=tuple(paid),
        price=money(row.money.price),
        paid=money(row.money.paid),
        owed=money(row.money.owed),
    )


def _months(session: Session, since: date | None, today: date) -> list[MonthOfMoney]:
    flows = [flow for row in read_orders(session, today) for flow in _income(row)]
    query = select(Expense, Species.name).join(
        Species, col(Expense.species_id) == col(Species.id), isouter=True
    )
    flows += [
        Flow(e.spent_on, OUT, e.kind, e.amount_minor, e.currency, species)
        for e, species in session.exec(query)
    ]
    return by_month(flow for flow in flows if since is None or flow.on >= since)


def _income(row: OrderRow) -> list[Flow]:
    """Payments parted among the species of an order by their price, or by their number."""
    shares: dict[str, int] = {}
    for animal in row.animals:
        price = row.prices[animal.tag]
        shares[animal.species] = shares.get(animal.species, 0) + (1 if price is None else price)
    if not sum(shares.values()):
        shares = {want.species or "not said": want.wanted for want in row.wants}
    flows = []
    for payment in row.payments:
        if payment.kind == "discount":
            continue
        sign = -1 if payment.kind == "refund" else 1
        parts = split(payment.amount_minor, shares) or {"": payment.amount_minor}
        flows += [
            Flow(payment.on, IN, payment.kind, sign * minor, row.currency, species or None)
            for species, minor in parts.items()
        ]
    return flows


def _page(month: MonthOfMoney) -> MonthPage:
    def major(minor: int) -> int | float:
        return in_major(minor, month.currency)

    return MonthPage(
        month.month,
        month.currency,
        major(month.income),
        major(month.expenses),
        major(month.left),
        {name: major(minor) for name, minor in sorted(month.by_kind.items())},
        {name: major(minor) for name, minor in sorted(month.by_species.items())},
    )
