"""The words of a sale: kinds of buyers, what happens to an order, and what is paid."""

BUYER_KINDS = ("keeper", "shop", "breeder", "institution")
ORDER_EVENTS = (
    "offered",
    "reserved",
    "released",
    "deposit",
    "paid",
    "shipped",
    "collected",
    "closed",
    "cancelled",
)
"""What happens to an order after it was asked for, each a row of its own."""

PAYMENT_KINDS = ("deposit", "payment", "refund", "discount")
"""What money moved for; a refund goes back to the buyer, a discount is no money at all."""

EXPENSE_KINDS = ("food", "power", "animals", "courier", "vet", "equipment", "other")
