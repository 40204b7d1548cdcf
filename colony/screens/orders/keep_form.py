"""The keep form: animals for an order, until a day."""

from datetime import date
from typing import TYPE_CHECKING

from colony.acts.orders.reserving import reserve
from colony.notation.fields.health import ANYWAY_WHY
from colony.notation.fields.orders import RESERVE_FACTS
from colony.screens.forms.fields.catalogue import form_field
from colony.screens.forms.fields.names import TagsField
from colony.screens.forms.form import Done, Facts, Form
from colony.screens.orders.fields import OrderField

if TYPE_CHECKING:
    from sqlmodel import Session


class KeepForm(Form):
    """Keep animals for an order; for those that are kept already, until another day."""

    TITLE_WORDS = "Keep for an order"
    ACT = "order reserve"
    FIELDS = (
        TagsField("tags", "Animals", needed=True, empty="tags, with commas between"),
        OrderField("order", "Order", needed=True, empty="its number"),
        *map(form_field, RESERVE_FACTS),
        form_field(ANYWAY_WHY),
    )

    def initial(self) -> dict[str, str]:
        """The animals that are marked, or the one that is looked at; the order that is open."""
        return {
            "tags": ", ".join(self.beginning.marked) or self.beginning.tag,
            "order": self.beginning.order,
        }

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Keep them."""
        page = reserve(session, **facts, anyway=anyway, today=today)
        until = f" until {page.kept_until}" if page.kept_until else ""
        return Done(f"Kept for {page.buyer}{until}: {', '.join(page.tags)}.", page.warnings)
