"""The order form: what a buyer asks for, and by when."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.orders.orders import add_order
from colony.notation.fields.orders import ORDER_FACTS, WANTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form
from colony.screens.frame.about import About
from colony.screens.orders.fields import BuyerField

if TYPE_CHECKING:
    from sqlmodel import Session


class OrderForm(Form):
    """Write down an order; several kinds of animals are parted with a plus."""

    TITLE_WORDS = "New order"
    ACT = "order add"
    FIELDS = (
        BuyerField("buyer", "Buyer", needed=True, empty="a name, or its beginning"),
        *map(form_field, ORDER_FACTS),
    )

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Add it, and open it."""
        said = dict(facts)
        wants = [part for text in said.pop(WANTS.name).split(" + ") if (part := text.strip())]
        page = add_order(session, wants=wants, **said, today=today)
        return Done(
            f"Order {page.order} of {page.buyer}: {page.want}.",
            page.warnings,
            opens=About("order", str(page.order)),
        )
