"""Fields of a form for what the sale knows: buyers and orders, completed while typing."""

from collections.abc import Sequence
from dataclasses import dataclass

from colony.acts.orders.buyers import find_buyer, list_buyers
from colony.acts.orders.orders import list_orders, show_order
from colony.screens.forms.fields.fields import FormField, Understood
from colony.screens.frame.session import BookSession


@dataclass(frozen=True)
class BuyerField(FormField):
    """A buyer, by name or its beginning."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find the buyer."""
        row = book_session.read(find_buyer, name=text.strip())
        return Understood(row.buyer, f"{row.called}, {row.kind}")

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:
        """Names that begin so."""
        begun = text.strip().casefold()
        rows = book_session.read(list_buyers)
        return [row.called for row in rows if row.called.casefold().startswith(begun)]


@dataclass(frozen=True)
class OrderField(FormField):
    """An order, by its number."""

    def understand(self, text: str, book_session: BookSession) -> Understood:
        """Find the order."""
        page = book_session.read(show_order, order=text.strip(), today=book_session.today).page
        want = f": {page.want}" if page.want else ""
        return Understood(str(page.order), f"{page.buyer}, {page.state}{want}")

    def complete(self, text: str, book_session: BookSession) -> Sequence[str]:
        """Numbers of open orders that begin so."""
        pages = book_session.read(list_orders, only_open=True, today=book_session.today)
        return [str(page.order) for page in pages if str(page.order).startswith(text.strip())]
