"""The buyer form: who buys, and how to reach them."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.orders.buyers import add_buyer
from colony.notation.fields.orders import BUYER_FACTS, NAME
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.form import Done, Facts, Form

if TYPE_CHECKING:
    from sqlmodel import Session


class BuyerForm(Form):
    """Write down a buyer."""

    TITLE_WORDS = "New buyer"
    ACT = "buyer add"
    FIELDS = (form_field(NAME), *map(form_field, BUYER_FACTS))

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:  # noqa: ARG002 - nothing to override
        """Add them."""
        said = dict(facts)
        row = add_buyer(session, name=said.pop("name"), facts=said)
        return Done(f"{row.called} is a buyer ({row.buyer}).")
