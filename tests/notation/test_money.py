"""Amounts of money as a breeder writes them."""

import pytest

from colony.notation.money import in_major, minor_digits, parse_amount, parse_currency, say_money
from colony.refusals.base import WrongUse
from colony.refusals.money import AmountOutOfRange, OtherCurrency, UnknownCurrency, UnreadableAmount


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [
        ("100", "EUR", 10000),
        ("99.50", "EUR", 9950),
        ("99,5", "EUR", 9950),
        ("EUR 12", "EUR", 1200),
        ("250 eur", "EUR", 25000),
        ("1200", "JPY", 1200),
        ("0.125", "KWD", 125),
        ("0", "EUR", 0),
    ],
)
def test_an_amount_is_kept_in_minor_units(text: str, currency: str, minor: int) -> None:
    """Two decimals for the euro, none for the yen, three for the dinar (ISO 4217:2015, minor units)."""
    assert parse_amount(text, currency) == minor


@pytest.mark.parametrize(
    ("text", "currency", "refusal"),
    [
        ("", "EUR", UnreadableAmount),
        ("much", "EUR", UnreadableAmount),
        ("-5", "EUR", UnreadableAmount),
        ("1,500", "EUR", UnreadableAmount),
        ("1.005", "EUR", UnreadableAmount),
        ("12.5", "JPY", UnreadableAmount),
        ("100 USD", "EUR", OtherCurrency),
        ("9999999999999", "EUR", UnreadableAmount),
    ],
)
def test_what_is_no_amount_is_refused(text: str, currency: str, refusal: type[WrongUse]) -> None:
    """A comma before three digits may part thousands: nobody guesses with money."""
    with pytest.raises(refusal):
        parse_amount(text, currency)


def test_a_payment_of_nothing_is_none() -> None:
    """Where something has to be paid, 0 is refused."""
    with pytest.raises(AmountOutOfRange):
        parse_amount("0", "EUR", least=1)


def test_a_currency_is_a_code_of_iso_4217() -> None:
    """Whatever its case; a word that only looks like one is none."""
    assert parse_currency(" usd ") == "USD"
    for word in ("euro", "ZZZ", "E€R"):
        with pytest.raises(UnknownCurrency):
            parse_currency(word)


def test_amounts_are_said_with_their_decimals() -> None:
    """And whole ones stay whole where a script reads them."""
    assert say_money(125000, "EUR") == "EUR 1,250.00"
    assert say_money(1200, "JPY") == "JPY 1,200"
    assert (in_major(9950, "EUR"), in_major(10000, "EUR")) == (99.5, 100)
    assert isinstance(in_major(10000, "EUR"), int)
    assert minor_digits("KWD") == 3
