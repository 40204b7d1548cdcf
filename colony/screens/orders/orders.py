"""Sales: the orders as they are served, and those that are over."""

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget

from colony.acts.orders.orders import OrderPage, list_orders
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

COLUMNS = (
    Column("Order", 6, right=True),
    Column("Buyer", 16),
    Column("State", 10),
    Column("Wants, or animals", 20, grows=True),
    Column("By", 11),
    Column("Owed", 8, right=True),
)

MARKS = {
    "asked": ("○", "due"),
    "offered": ("◐", "due"),
    "reserved": ("●", ""),
    "paid": ("●", "ready"),
    "shipped": ("►", "due"),
}
GROUPS = (
    ("Waiting", ("asked", "offered")),
    ("Kept for them", ("reserved", "paid")),
    ("On the way", ("shipped",)),
    ("Over", ("collected", "closed", "cancelled")),
)


class Sales(Place):
    """The queue of orders: deposits first, then by the day they were asked for."""

    HERE = "orders"
    HELP: ClassVar[str | None] = (
        "N writes a new order, B a new buyer. On an order Enter shows the sets that would do; "
        "K keeps animals for it, P notes money, S ships it, C closes or cancels it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("N", "app.form('order')", "New order"),
        Binding("K", "app.form('keep')", "Keep"),
        Binding("P", "app.form('paid')", "Paid"),
        Binding("C", "app.form('over')", "Close"),
    ]

    def body(self) -> Iterable[Widget]:
        """The orders, and more of one beside them."""
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="No order is in the book: N writes the first one.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for the orders."""
        self.ask(list_orders, self._show, today=self.app.book_session.today)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Say more of the order."""
        self.query_one(DetailPane).show(str((event.line and event.line.more) or ""))

    def _show(self, pages: Sequence[OrderPage]) -> None:
        entries: list[Entry] = []
        for title, states in GROUPS:
            here = [page for page in pages if page.state in states]
            if here:
                entries.append(Heading(f"{title} ({len(here)})"))
                entries += [_line(page) for page in here]
        self.query_one(EntryList).show(entries)


def _line(page: OrderPage) -> Line:
    mark, tone = MARKS.get(page.state, ("■", "quiet"))
    cells = (
        str(page.order),
        page.buyer,
        page.state,
        " ".join(page.tags) or page.want or "-",
        short_day(page.by) if page.by else "-",
        f"{page.owed:,}" if page.owed else "-",
    )
    return Line(
        About("order", str(page.order)),
        cells,
        mark,
        tone,
        more=order_in_words(page),
        initial={"order": str(page.order), "tags": ""},
    )


def order_in_words(page: OrderPage) -> str:
    """An order, a line a fact."""
    money = f"{page.price:,} {page.currency}" if page.price is not None else "no price yet"
    facts = (
        f"Order {page.order} of {page.buyer}: {page.state}",
        f"wants {page.want}" if page.want else "",
        f"by {short_day(page.by)}" if page.by else "",
        f"kept: {', '.join(page.tags)}" if page.tags else "",
        f"kept until {short_day(page.kept_until)}" if page.kept_until else "",
        f"price {money}; {page.paid:,} paid" + (f", {page.owed:,} owed" if page.owed else ""),
        page.note or "",
    )
    return "\n\n".join(fact for fact in facts if fact)
