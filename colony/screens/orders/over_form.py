"""The closing form: an order was collected, arrived, is closed, or comes to nothing."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any

from colony.acts.orders.handing import cancel_order, close_order, collect
from colony.acts.orders.orders import OrderPage, show_order
from colony.notation.fields.field import ON, Field, choice
from colony.notation.fields.health import ANYWAY_WHY
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form
from colony.screens.orders.fields import OrderField

if TYPE_CHECKING:
    from sqlmodel import Session

HOW = ("collected", "closed", "cancelled")
HOW_OVER = Field(
    "how", "word", what="end", help=choice(HOW), words=HOW, first="closed", needed=True
)


class OverForm(Form):
    """Say how an order ends."""

    TITLE_WORDS = "An order ends"
    ACT = "order close"
    FIELDS = (
        OrderField("order", "Order", needed=True, empty="its number"),
        form_field(HOW_OVER, label="How"),
        form_field(ON),
        form_field(ANYWAY_WHY),
    )

    def initial(self) -> dict[str, str]:
        """The order that is looked at."""
        return {"order": self.beginning.order}

    def asks(self, facts: Facts) -> str:
        """What becomes of the animals that are kept for it."""
        book_session = self.app.book_session
        page = book_session.read(show_order, order=facts["order"], today=book_session.today).page
        if not page.tags or page.state not in {"reserved", "paid"}:
            return ""
        tags = ", ".join(page.tags)
        if facts["how"] == "cancelled":
            return f"{tags} are free again, and order {page.order} is cancelled."
        return f"{tags} are sold to {page.buyer} and leave the house."

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """End it."""
        page = _ENDS[facts["how"]](session, facts, anyway, today)
        return Done(f"Order {page.order} of {page.buyer} is {page.state}.", page.warnings)


def _closed(session: Any, facts: Facts, anyway: bool, today: date) -> OrderPage:  # noqa: ANN401 - the open session
    order, on, why = facts["order"], facts["on"], facts["why"]
    return close_order(session, order=order, on=on, anyway=anyway, why=why, today=today)


def _collected(session: Any, facts: Facts, anyway: bool, today: date) -> OrderPage:  # noqa: ANN401 - the same
    order, on, why = facts["order"], facts["on"], facts["why"]
    return collect(session, order=order, on=on, anyway=anyway, why=why, today=today)


def _cancelled(session: Any, facts: Facts, _anyway: bool, today: date) -> OrderPage:  # noqa: ANN401 - the same
    return cancel_order(
        session, order=facts["order"], on=facts["on"], note=facts["why"], today=today
    )


_ENDS: Mapping[str, Callable[[Any, Facts, bool, date], OrderPage]] = {
    "collected": _collected,
    "closed": _closed,
    "cancelled": _cancelled,
}
