"""The files of the sale: buyers, orders and all that happened to them, prices and expenses.

A buyer is named by a code, so that a sale stays when the person is forgotten; an order by its
number.
"""

from colony.exchange.folder.noun import Noun
from colony.notation.fields.orders import (
    BUYER_COLUMNS,
    EXPENSE_COLUMNS,
    ORDER_COLUMNS,
    ORDER_EVENT_COLUMNS,
    ORDER_WANT_COLUMNS,
    PAYMENT_COLUMNS,
    PRICE_COLUMNS,
    RESERVATION_COLUMNS,
    SHIPMENT_COLUMNS,
)

SALE_NOUNS = (
    Noun("buyers", BUYER_COLUMNS, "buyer", key=("code",)),
    Noun("orders", ORDER_COLUMNS, "order", key=("code",)),
    Noun("order_wants", ORDER_WANT_COLUMNS, "order"),
    Noun("order_events", ORDER_EVENT_COLUMNS, "order"),
    Noun("reservations", RESERVATION_COLUMNS, "order"),
    Noun("payments", PAYMENT_COLUMNS, "order"),
    Noun("shipments", SHIPMENT_COLUMNS, "order"),
    Noun("prices", PRICE_COLUMNS, "money"),
    Noun("expenses", EXPENSE_COLUMNS, "money"),
)
"""Every noun of the sale, each after those that it cannot do without."""
