"""How a breeder writes an amount of money: ``100``, ``99.50``, ``250 EUR``.

Amounts are kept in minor units (cents) with an ISO 4217 code. How many digits a currency has,
and how its amounts are written, is babel's to say (Unicode CLDR).
"""

import re
from decimal import Decimal

from colony.refusals.money import AmountOutOfRange, OtherCurrency, UnknownCurrency, UnreadableAmount

MOST_MINOR = 10**12
"""No animal, and no day's takings, costs more."""

_AMOUNT = re.compile(
    r"(?:([A-Za-z]{3})\s*)?(\d{1,10})(?:[.,](\d{1,4}))?(?:\s*([A-Za-z]{3}))?", re.ASCII
)


def parse_currency(text: str) -> str:
    """Read an ISO 4217 code, whatever its case.

    Raises
    ------
    UnknownCurrency
    """
    from babel.numbers import is_currency  # noqa: PLC0415 - only those who deal in money load it

    code = text.strip().upper()
    if not code.isascii() or not is_currency(code):
        raise UnknownCurrency(text)
    return code


def parse_amount(text: str, currency: str, least: int = 0) -> int:
    """Read an amount as whole minor units of a currency; three digits after a comma are none.

    Raises
    ------
    UnreadableAmount
        There is no number, or more decimals than the currency has.
    OtherCurrency
        It names another currency than the book's.
    AmountOutOfRange
    """
    matched = _AMOUNT.fullmatch(text.strip())
    if matched is None:
        raise UnreadableAmount(text)
    before, whole, decimals, after = matched.groups(default="")
    for code in filter(None, (before, after)):
        if code.upper() != currency:
            raise OtherCurrency(text, currency)
    digits = minor_digits(currency)
    if len(decimals) > digits:
        raise UnreadableAmount(text)
    minor: int = int(whole) * 10**digits + int(decimals.ljust(digits, "0") or 0)
    if not least <= minor <= MOST_MINOR:
        raise AmountOutOfRange(text)
    return minor


def minor_digits(currency: str) -> int:
    """How many decimals a currency has: 2 of the euro, none of the yen (ISO 4217)."""
    from babel.numbers import get_currency_precision  # noqa: PLC0415 - the same

    digits: int = get_currency_precision(currency)
    return digits


def in_major(minor: int, currency: str) -> int | float:
    """An amount in the unit that is spoken of: 9950 cents are 99.5; whole ones stay whole."""
    amount = Decimal(minor).scaleb(-minor_digits(currency))
    return int(amount) if amount == amount.to_integral_value() else float(amount)


def say_money(minor: int, currency: str) -> str:
    """An amount for a person: ``EUR 1,250.00``."""
    from babel.numbers import format_currency  # noqa: PLC0415 - the same

    amount = Decimal(minor).scaleb(-minor_digits(currency))
    text: str = format_currency(amount, currency, "\xa4\xa4 #,##0.00", locale="en")
    return text.replace("\xa0", " ")
