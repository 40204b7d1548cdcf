"""The state of an order: what its events make of it, by one table."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

ASKED, OFFERED, RESERVED, PAID = "asked", "offered", "reserved", "paid"
SHIPPED, COLLECTED, CLOSED, CANCELLED = "shipped", "collected", "closed", "cancelled"

STATES = (ASKED, OFFERED, RESERVED, PAID, SHIPPED, COLLECTED, CLOSED, CANCELLED)
OPEN = frozenset({ASKED, OFFERED, RESERVED, PAID})
"""The states in which the buyer still waits for animals."""

TRANSITIONS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        ASKED: {
            "offered": OFFERED,
            "reserved": RESERVED,
            "deposit": ASKED,
            "paid": ASKED,
            "cancelled": CANCELLED,
        },
        OFFERED: {
            "offered": OFFERED,
            "reserved": RESERVED,
            "deposit": OFFERED,
            "paid": OFFERED,
            "cancelled": CANCELLED,
        },
        RESERVED: {
            "offered": RESERVED,
            "reserved": RESERVED,
            "released": ASKED,
            "deposit": RESERVED,
            "paid": PAID,
            "shipped": SHIPPED,
            "collected": COLLECTED,
            "cancelled": CANCELLED,
        },
        PAID: {
            "offered": PAID,
            "reserved": PAID,
            "released": ASKED,
            "deposit": RESERVED,
            "paid": PAID,
            "shipped": SHIPPED,
            "collected": COLLECTED,
            "cancelled": CANCELLED,
        },
        SHIPPED: {"deposit": SHIPPED, "paid": SHIPPED, "closed": CLOSED},
        COLLECTED: {"deposit": COLLECTED, "paid": COLLECTED, "closed": CLOSED},
        CLOSED: {"deposit": CLOSED, "paid": CLOSED},
        CANCELLED: {"deposit": CANCELLED, "paid": CANCELLED},
    }
)
"""By state and event, the state that follows; an event that is not there cannot be.

A ``deposit`` is money after which something is still owed, ``paid`` after which nothing is;
``released`` lets the last animal go that was kept.
"""


def after(state: str, event: str) -> str | None:
    """The state that follows an event, or None where that event cannot be."""
    return TRANSITIONS[state].get(event)


def state_of(events: Iterable[str]) -> str:
    """The state that events lead to, the first one first; what cannot be changes nothing."""
    state = ASKED
    for event in events:
        state = after(state, event) or state
    return state


def possible(state: str) -> tuple[str, ...]:
    """What may happen to an order in a state."""
    return tuple(TRANSITIONS[state])
