"""One animal: who it is, its family, its growth, where it was, and what was written of it."""

from collections.abc import Iterable
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widget import Widget
from textual.widgets import Static

from colony.screens.animals.sections import WhatIsKnown, sections, what_is_known
from colony.screens.frame.page import Page
from colony.screens.pups.curves import curve_of


class AnimalPage(Page):
    """The page of an animal, read from top to bottom."""

    HERE = "animals"
    HELP: ClassVar[str | None] = (
        "Every form begins with this animal. Up and down scroll; d corrects a fact; p ranks partners."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("p", "app.form('partners')", "Partners"),
        Binding("d", "app.form('correct')", "Correct"),
        Binding("e", "app.form('end')", "End"),
    ]

    def body(self) -> Iterable[Widget]:
        """A column of sections, two where there is room."""
        yield VerticalScroll(id="animal")

    def load(self) -> None:
        """Ask for everything on record."""
        facts: dict[str, Any] = {"tag": self.subject.key, "today": self.app.book_session.today}
        self.ask(what_is_known, self._show, **facts)

    async def _show(self, known: WhatIsKnown) -> None:
        page = self.query_one("#animal", VerticalScroll)
        await page.remove_children()
        await page.mount_all(
            _section(*section) for section in sections(known, self.app.book_session)
        )
        page.focus()
        if known.page.widths:
            self.ask(
                curve_of, self._show_curve, tag=known.page.tag, today=self.app.book_session.today
            )

    def _show_curve(self, curve: str) -> None:
        if curve:
            widths = self.query("#growth")
            self.query_one("#animal").mount(_section("Growth", curve), before=widths.first())


def _section(title: str, text: str) -> Static:
    section = Static(text, classes="section", markup=False)
    section.border_title = Content(title).markup  # a tag stays inert
    if title == "Widths":
        section.id = "growth"
    return section
