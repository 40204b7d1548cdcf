"""One order: what is kept for it, or the sets that would do, the best first."""

from collections.abc import Iterable
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.orders.messages import order_message
from colony.acts.orders.offers import Offer, SetOffered, offer
from colony.acts.orders.orders import OrderHistory, show_order
from colony.planning.orders.states import OPEN
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.page import Page
from colony.screens.orders.orders import order_in_words
from colony.screens.widgets.columns import Column
from colony.screens.widgets.entry_list import Entry, EntryList, Heading, Line

COLUMNS = (
    Column("Animals", 36, grows=True),
    Column("Kinship", 9, right=True),
    Column("Price", 10, right=True),
    Column("Ready", 11),
)


class OrderDetails(Page):
    """The page of an order."""

    HERE = "orders"
    HELP: ClassVar[str | None] = (
        "The sets that would do stand under what is kept, the least related first. K on a set "
        "keeps it; g shows who is how related; t shows what the buyer may be told."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("K", "app.form('keep')", "Keep"),
        Binding("P", "app.form('paid')", "Paid"),
        Binding("g", "kin", "Kinship"),
        Binding("t", "tell", "Message"),
        Binding("C", "app.form('over')", "Close"),
    ]

    def body(self) -> Iterable[Widget]:
        """What is known of the order, and the sets."""
        yield Static("", id="page-head", markup=False)
        yield EntryList(COLUMNS, empty="No set is found yet.")

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for the order, then for the sets that would do."""
        today = self.app.book_session.today
        self.ask(_order_and_sets, self._show, order=self.subject.key, today=today)

    def action_kin(self) -> None:
        """Show how the animals of the set are related."""
        line = self.query_one(EntryList).line
        tags = line.initial["tags"].split(", ") if line and line.initial.get("tags") else []
        if len(tags) > 1:
            self.app.open_about(About("kin", "\n".join(tags)))

    def action_tell(self) -> None:
        """Show what the buyer may be told."""
        today = self.app.book_session.today
        head = self.query_one("#page-head", Static)
        self.ask(order_message, head.update, order=self.subject.key, today=today)

    def _show(self, found: tuple[OrderHistory, Offer | None]) -> None:
        history, sets = found
        page = history.page
        head = order_in_words(page).replace("\n\n", "\n")
        happened = "; ".join(f"{each.event} {short_day(each.on)}" for each in history.events)
        told = (sets and sets.instead) or ""
        words = [head, happened, told]
        self.query_one("#page-head", Static).update("\n".join(word for word in words if word))
        entries: list[Entry] = []
        if page.tags:
            price = "-" if page.price is None else f"{page.price:,}"
            until = short_day(page.kept_until) if page.kept_until else "-"
            entries += [
                Heading("Kept" if page.state in OPEN else "Went"),
                self._line(page.tags, "-", price, until),
            ]
        if sets is not None and sets.sets:
            proved = "" if sets.proven else ", not proved in time"
            entries.append(Heading(f"Would do ({len(sets.sets)}{proved})"))
            entries += [self._set(each) for each in sets.sets]
        self.query_one(EntryList).show(entries)

    def _set(self, found: SetOffered) -> Line:
        price = "-" if found.price is None else f"{found.price:,}"
        ready = short_day(found.ready_on) if found.ready_on else "-"
        return self._line(found.tags, f"{found.greatest_kinship:.4f}", price, ready)

    def _line(self, tags: list[str], kinship: str, price: str, ready: str) -> Line:
        return Line(
            About("order", self.subject.key),
            (" ".join(tags), kinship, price, ready),
            "●",
            "",
            initial={"order": self.subject.key, "tags": ", ".join(tags)},
        )


def _order_and_sets(session: Any, *, order: str, today: Any) -> tuple[OrderHistory, Offer | None]:  # noqa: ANN401 - an open session and a day
    history = show_order(session, order=order, today=today)
    if history.page.state not in {"asked", "offered"} or not history.page.want:
        return history, None
    return history, offer(session, order=order, today=today)
