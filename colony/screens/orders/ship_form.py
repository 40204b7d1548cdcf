"""The shipping form: when an order leaves, and what stands against it."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.orders.handing import ship
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.orders import LEAVES_ON, WEATHER
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.fields import CountField
from colony.screens.forms.form import Done, Facts, Form
from colony.screens.orders.fields import OrderField

if TYPE_CHECKING:
    from sqlmodel import Session


class ShipForm(Form):
    """Ship an order, or plan it for a day to come."""

    TITLE_WORDS = "An order leaves"
    ACT = "order ship"
    FIELDS = (
        OrderField("order", "Order", needed=True, empty="its number"),
        form_field(LEAVES_ON),
        CountField("hours", "Hours on the way", needed=True, first="24", most=240),
        form_field(WEATHER),
        form_field(ANYWAY_WHY),
    )

    def initial(self) -> dict[str, str]:
        """The order that is looked at."""
        return {"order": self.beginning.order}

    def asks(self, facts: Facts) -> str:
        """Who is about to leave the book for good."""
        book_session = self.app.book_session
        if facts["on"] > book_session.today:
            return ""
        from colony.acts.orders.orders import show_order

        page = book_session.read(show_order, order=facts["order"], today=book_session.today).page
        return f"{', '.join(page.tags)} are sold to {page.buyer} and leave today."

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Ship it, or plan it."""
        done = ship(session, **facts, anyway=anyway, today=today)
        tags = ", ".join(done.order.tags)
        if done.gone:
            return Done(f"Order {done.order.order} left: {tags}.", done.order.warnings)
        first = f" First: {done.work[0].what}, {done.work[0].on}." if done.work else ""
        return Done(
            f"Order {done.order.order} is to leave on {done.leaves_on}: {tags}.{first}",
            (*done.against, *done.order.warnings),
        )
