"""Refusals about money: amounts and currencies that cannot be read."""

from colony.refusals.base import Refusal, WrongUse, act
from colony.refusals.notation import shown


class UnknownCurrency(WrongUse):
    """A currency that ISO 4217 does not know."""

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} is no currency: write its ISO 4217 code, such as EUR.")


class UnreadableAmount(WrongUse):
    """An amount of money that cannot be read."""

    fields = ("amount", "deposit", "price")

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} is no amount of money: write 250 or 99.50.")


class OtherCurrency(WrongUse):
    """An amount in another currency than the book keeps its money in."""

    fields = ("amount", "deposit", "price")

    def __init__(self, text: str, currency: str) -> None:
        super().__init__(f"{shown(text)} is not in {currency}: write what it is in {currency}.")


class AmountOutOfRange(WrongUse):
    """An amount beyond all sense."""

    fields = ("amount", "deposit", "price")

    def __init__(self, text: str) -> None:
        super().__init__(f"{shown(text)} cannot be meant: write an amount such as 250 or 99.50.")


class PriceOfWhat(WrongUse):
    """A price that cannot be one."""

    fields = ("animal", "species", "valid_until")

    def __init__(self, broken: str) -> None:
        super().__init__(f"{broken}: say of what, and from when until when.")


class NoSuchPrice(Refusal):
    """No price has that number."""

    fields = ("price",)

    def __init__(self, number: int) -> None:
        super().__init__(
            f"There is no price {number}: look in the list of prices.", act("money prices")
        )


class NothingToReceive(Refusal):
    """A receipt is asked for, and nothing was paid."""

    fields = ("order",)

    def __init__(self, order: str) -> None:
        super().__init__(
            f"Nothing was paid for order {order}: write down the payment first.",
            act("order pay", order),
        )
