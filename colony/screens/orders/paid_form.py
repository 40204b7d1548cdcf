"""The money form: what was paid for an order."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.orders.payments import pay
from colony.notation.fields.orders import PAY_FACTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.fields import FormField
from colony.screens.forms.form import Done, Facts, Form
from colony.screens.orders.fields import OrderField

if TYPE_CHECKING:
    from sqlmodel import Session


class PaidForm(Form):
    """Write down money for an order."""

    TITLE_WORDS = "Money for an order"
    ACT = "order pay"
    FIELDS = (
        OrderField("order", "Order", needed=True, empty="its number"),
        FormField("amount", "Amount", needed=True, empty="100, or 99.50"),
        *map(form_field, PAY_FACTS),
    )

    def initial(self) -> dict[str, str]:
        """The order that is looked at."""
        return {"order": self.beginning.order}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Write it down."""
        page = pay(session, **facts, today=today)
        owed = f"; {page.owed:,} {page.currency} owed" if page.owed else ""
        return Done(f"Order {page.order}: {facts['amount']} {facts['kind']}{owed}.", page.warnings)
