"""Refusals about the sale: buyers, orders, what is kept for whom, what is paid."""

from collections.abc import Sequence
from datetime import date

from colony.refusals.base import Refusal, WrongUse, act, again, listed
from colony.refusals.notation import shown


class UnreadableWant(WrongUse):
    """What a buyer asks for cannot be read."""

    fields = ("wants",)

    def __init__(self, text: str, part: str) -> None:
        where = "" if part == text.strip() else f", at {shown(part)}"
        super().__init__(
            f"{shown(text)} says not what is wanted{where}: write it as 2F1M motoro, 12cm, unrelated."
        )


class WantTwice(WrongUse):
    """A want names two widths, two kinships or two prices."""

    fields = ("wants",)

    def __init__(self, text: str, part: str) -> None:
        super().__init__(f"{shown(part)} says in {shown(text)} what was said already: keep one.")


class NoSuchBuyer(Refusal):
    """No buyer has that name or code; the nearest are named."""

    fields = ("buyer",)

    def __init__(self, name: str, nearest: Sequence[str]) -> None:
        sentence = f"There is no buyer {shown(name)}"
        if nearest:
            super().__init__(f"{sentence}: did you mean {listed(list(nearest))}?")
        else:
            super().__init__(f"{sentence}: look in the list, or add them.", act("buyer add", name))


class BuyerTaken(Refusal):
    """Another buyer has that name already."""

    fields = ("name",)

    def __init__(self, name: str, code: str) -> None:
        super().__init__(
            f"There is a buyer {shown(name)} already ({code}): add a town or a number to the name."
        )


class NamelessBuyer(WrongUse):
    """A buyer without a name."""

    fields = ("name",)

    def __init__(self) -> None:
        super().__init__("A buyer has a name: say who it is, such as 'Anna Pond'.")


class NeededBeforeAsked(WrongUse):
    """An order that is wanted before it was asked for."""

    fields = ("needed_by", "on")

    def __init__(self, by: date, asked_on: date) -> None:
        super().__init__(
            f"An order of {asked_on} cannot be wanted by {by}: say a day that is not before it."
        )


class SeveralBuyers(Refusal):
    """Two buyers answer to one name."""

    fields = ("buyer",)

    def __init__(self, name: str, codes: Sequence[str]) -> None:
        super().__init__(f"{shown(name)} may be {listed(list(codes))}: name one of these codes.")


class BuyerEnded(Refusal):
    """Nothing more is sold to a buyer."""

    fields = ("buyer",)

    def __init__(self, name: str, on: date) -> None:
        super().__init__(
            f"{shown(name)} is no buyer any more since {on}: bring them back first.",
            act("buyer edit", name, back=True),
        )


class BuyerForgotten(Refusal):
    """The person behind a buyer was taken out of the book."""

    fields = ("buyer",)

    def __init__(self, code: str, on: date) -> None:
        super().__init__(
            f"Who {code} was is forgotten since {on} and cannot come back: add a buyer anew."
        )


class BuyerWaits(Refusal):
    """A buyer with open orders is to be ended or forgotten."""

    fields = ("buyer",)

    def __init__(self, code: str, orders: Sequence[str]) -> None:
        first = orders[0]
        super().__init__(
            f"{code} still waits for order {listed(list(orders), 'and')}: close or cancel it first.",
            act("order close", first),
            act("order cancel", first),
        )


class BuyerAlreadyEnded(Refusal):
    """A buyer is ended a second time."""

    def __init__(self, code: str, on: date) -> None:
        super().__init__(f"{code} is ended since {on} already.")


class NoSuchOrder(Refusal):
    """No order has that number."""

    fields = ("order",)

    def __init__(self, code: str) -> None:
        super().__init__(
            f"There is no order {shown(code)}: look in the list of orders.", act("order list")
        )


class NotNowWithOrder(Refusal):
    """An order is in a state in which that cannot happen."""

    fields = ("order",)

    def __init__(self, code: str, state: str, event: str, can: Sequence[str]) -> None:
        ways = f"it can be {listed(list(can))}" if can else "nothing more can happen to it"
        super().__init__(f"Order {code} is {state} and cannot be {event}: {ways}.")


class NothingWanted(WrongUse):
    """An order that asks for nothing."""

    fields = ("wants",)

    def __init__(self) -> None:
        super().__init__(
            "An order says what is wanted: 2F1M motoro, 12cm, unrelated.", again(want="")
        )


class ReservedUntilWhen(WrongUse):
    """A reservation that would end before it begins."""

    fields = ("until",)

    def __init__(self, until: date, on: date) -> None:
        super().__init__(f"{until} is before {on}: say a last day after the first.")


class NotKeptFor(Refusal):
    """An animal is to be released that is not kept for the order."""

    fields = ("tags",)

    def __init__(self, tag: str, order: str) -> None:
        super().__init__(
            f"{tag} is not kept for order {order}: look at what is.", act("order show", order)
        )


class NothingKept(Refusal):
    """An order is to be shipped or collected, and nothing is kept for it."""

    fields = ("order",)

    def __init__(self, order: str) -> None:
        super().__init__(
            f"No animal is kept for order {order}: reserve what goes.",
            act("order reserve", order),
        )


class NotShipped(Refusal):
    """The arrival of what was never sent."""

    fields = ("order",)

    def __init__(self, order: str) -> None:
        super().__init__(
            f"Order {order} was not shipped: write down when it leaves.", act("order ship", order)
        )


class MoreThanPaid(Refusal):
    """More is given back than was paid."""

    fields = ("amount",)

    def __init__(self, order: str, amount: str, paid: str) -> None:
        super().__init__(f"{amount} cannot be given back for order {order}: {paid} was paid.")


class WantsNobody(Refusal):
    """A set is asked for by an order that names no animals."""

    fields = ("order",)

    def __init__(self, order: str) -> None:
        super().__init__(
            f"Order {order} does not say how many of what are wanted: write that first.",
            act("order edit", order, want=""),
        )


class CannotComeBack(Refusal):
    """An undo would bring back what a buyer had taken out for good."""

    def __init__(self, number: int) -> None:
        super().__init__(
            f"Act {number} forgot a buyer: what was taken out is not kept anywhere and cannot come back."
        )
