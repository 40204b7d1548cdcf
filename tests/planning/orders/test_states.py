"""The state of an order by its events: a table, walked whole."""

from itertools import product

import pytest

from colony.notation.orders import ORDER_EVENTS
from colony.planning.orders.states import OPEN, STATES, TRANSITIONS, after, possible, state_of


def test_the_table_has_every_state_and_no_other() -> None:
    """What can happen leads to a state of the table, by an event that is written down."""
    assert set(TRANSITIONS) == set(STATES)
    for events in TRANSITIONS.values():
        assert set(events) <= set(ORDER_EVENTS)
        assert set(events.values()) <= set(STATES)


@pytest.mark.parametrize(
    ("events", "state"),
    [
        ((), "asked"),
        (("offered",), "offered"),
        (("offered", "reserved"), "reserved"),
        (("deposit", "reserved"), "reserved"),
        (("reserved", "deposit"), "reserved"),
        (("reserved", "paid"), "paid"),
        (("reserved", "paid", "shipped"), "shipped"),
        (("reserved", "shipped", "paid", "closed"), "closed"),
        (("reserved", "collected", "closed"), "closed"),
        (("reserved", "released"), "asked"),
        (("reserved", "paid", "released", "reserved"), "reserved"),
        (("reserved", "cancelled"), "cancelled"),
        (("paid", "reserved"), "reserved"),
    ],
)
def test_an_order_goes_its_way(events: tuple[str, ...], state: str) -> None:
    """From what was asked to an animal in a box, or to nothing."""
    assert state_of(events) == state


def test_what_cannot_be_changes_nothing() -> None:
    """Nothing is shipped that is not kept, and nothing happens after the end but money."""
    for state in STATES:
        for event in set(ORDER_EVENTS) - set(possible(state)):
            assert after(state, event) is None
    assert state_of(["shipped", "closed", "collected"]) == "asked"
    assert state_of(["cancelled", "reserved"]) == "cancelled"
    assert {event for state in ("closed", "cancelled") for event in possible(state)} == {
        "deposit",
        "paid",
    }


def test_no_way_leads_back_from_an_order_that_is_over() -> None:
    """Of all ways of four events, none is open again once its animals have gone."""
    for way in product(ORDER_EVENTS, repeat=4):
        states = [state_of(way[:n]) for n in range(5)]
        gone = [state not in OPEN for state in states]
        assert gone == sorted(gone)
