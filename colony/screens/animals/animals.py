"""Rays: find any animal while typing; filters by key."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Input, Static

from colony.acts.animals.search import PAGE_LINES, AnimalFilter, ListedAnimal, search_animals
from colony.acts.animals.species import list_species
from colony.notation.days import show_span
from colony.screens.forms.fields.names import describe
from colony.screens.frame.about import About
from colony.screens.frame.place import Place
from colony.screens.widgets.columns import Column
from colony.screens.widgets.detail_pane import DetailPane
from colony.screens.widgets.entry_list import EntryList, Line
from colony.screens.widgets.search_line import SearchLine

COLUMNS = (
    Column("Tag", 14),
    Column("Sex", 3),
    Column("Species", 12, grows=True),
    Column("Age", 5, right=True),
    Column("Width", 8, right=True),
    Column("Tank", 7),
    Column("Dam", 12),
    Column("Sire", 12, from_screen=92),
    Column("Name", 12, from_screen=108),
    Column("Line", 12, from_screen=124),
)

ENDED = {"sold": "○ sold", "died": "† died", "gone": "○ gone"}
CHOICES: dict[str, tuple[str | None, ...]] = {
    "sex": (None, "F", "M", "U"),
    "status": ("present", None, "sold", "died", "gone"),
}
"""What each filter goes through; None does not narrow."""


class Rays(Place):
    """Every animal of the book, found by tag, name, species, line, dam or sire."""

    HERE = "animals"
    HELP: ClassVar[str | None] = (
        "Type to find: every word has to be somewhere in tag, name, species, line, dam or sire. "
        "Up and down move in the list while you type; Enter opens; Tab leaves the typing, and "
        "letters are keys again; / goes back to it."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f2", "narrow('sex')", "Sex", key_display="F2"),
        Binding("f3", "narrow('status')", "Here or all", key_display="F3"),
        Binding("f4", "narrow('species')", "Species", key_display="F4"),
        Binding("tab", "app.focus_next", "To the list", key_display="Tab"),
        Binding("down", "move(1)", show=False),
        Binding("up", "move(-1)", show=False),
        Binding("pagedown", "move(15)", show=False),
        Binding("pageup", "move(-15)", show=False),
        Binding("space", "mark", "Mark"),
        Binding("g", "kin", "Kin of marked", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._choices = dict(CHOICES)
        self._chosen: dict[str, str | None] = {"sex": None, "status": "present", "species": None}
        self._whole = False
        self._filters_line = ""

    def body(self) -> Iterable[Widget]:
        """The line one types in, and the list."""
        with Horizontal(id="search"):
            yield SearchLine(placeholder="find a ray: tag, name, species, parent", compact=True)
            yield Static("", id="filters", markup=False)
        with Horizontal(classes="beside"):
            yield EntryList(COLUMNS, empty="No ray is found by that.")
            yield DetailPane()

    def on_mount(self) -> None:
        """The typing takes the keys."""
        self.query_one(Input).focus()
        self.ask(list_species, self._know_species)

    def arrive(self) -> None:
        """Type at once."""
        self.query_one(Input).focus()

    def load(self) -> None:
        """Ask for the first page of what is sought."""
        self._show_filters()
        self.ask(
            search_animals,
            self._show,
            wanted=self._wanted(),
            today=self.app.book_session.today,
            group="find",
        )

    def on_input_changed(self, event: Input.Changed) -> None:
        """Find anew with each letter."""
        event.stop()
        self.load()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Open what is highlighted."""
        event.stop()
        if (line := self.query_one(EntryList).line) is not None:
            self.app.open_about(line.about)

    def on_entry_list_near_end(self, _: EntryList.NearEnd) -> None:
        """Ask for the next page."""
        entries = self.query_one(EntryList)
        if not self._whole and "more" not in self._asked and entries.entries:
            facts = {"offset": len(entries.entries), "today": self.app.book_session.today}
            self.ask(search_animals, self._add, wanted=self._wanted(), group="more", **facts)

    def on_entry_list_highlighted(self, event: EntryList.Highlighted) -> None:
        """Say more of the line."""
        hit = event.line.more if event.line else None
        self.query_one(DetailPane).show(_more(hit, self) if isinstance(hit, ListedAnimal) else "")

    def action_narrow(self, what: str) -> None:
        """Go on to the next choice of a filter."""
        choices = self._choices.get(what, (None,))
        now = choices.index(self._chosen[what])
        self._chosen[what] = choices[(now + 1) % len(choices)]
        self.load()

    def action_move(self, lines: int) -> None:
        """Move in the list, whoever has the keys."""
        entries = self.query_one(EntryList)
        if entries.highlighted is not None:
            last = len(entries.entries) - 1
            entries.highlighted = min(max(entries.highlighted + lines, 0), last)

    def action_mark(self) -> None:
        """Mark the highlighted animal, for a move or widths."""
        self.query_one(EntryList).toggle_mark()

    def action_back(self) -> None:
        """First empty the typing, then go home."""
        typed = self.query_one(Input)
        if typed.value:
            typed.value = ""
        else:
            super().action_back()

    def _wanted(self) -> AnimalFilter:
        return AnimalFilter(words=self.query_one(Input).value.split(), **self._chosen)

    def _know_species(self, pages: Sequence[Any]) -> None:
        self._choices["species"] = (None, *(page.species for page in pages))

    def _show_filters(self) -> None:
        line = (
            f"F2 sex: {self._chosen['sex'] or 'all'}  "
            f"F3 {'here' if self._chosen['status'] == 'present' else self._chosen['status'] or 'all'}  "
            f"F4 {self._chosen['species'] or 'all species'}"
        )
        if line != self._filters_line:
            self._filters_line = line
            self.query_one("#filters", Static).update(line)

    def _show(self, hits: Sequence[ListedAnimal]) -> None:
        self._whole = len(hits) < PAGE_LINES
        self.workers.cancel_group(self, "more")
        self._asked.discard("more")
        entries = self.query_one(EntryList)
        entries.show([self._line(hit) for hit in hits])
        entries.highlighted = 0 if hits else None
        entries.scroll_home(animate=False)

    def _add(self, hits: Sequence[ListedAnimal]) -> None:
        self._whole = len(hits) < PAGE_LINES
        self.query_one(EntryList).add([self._line(hit) for hit in hits])

    def _line(self, hit: ListedAnimal) -> Line:
        cells = (
            hit.tag,
            hit.sex,
            hit.species or "hybrid?",
            "-" if hit.age_days is None else show_span(hit.age_days),
            self.app.book_session.length(hit.disc_width_mm),
            hit.tank or ENDED.get(hit.status, "-"),
            hit.dam or "-",
            hit.sire or "-",
            hit.name or "",
            hit.line or "",
        )
        return Line(
            About("animal", hit.tag, hit.sex),
            cells,
            "" if hit.status == "present" else "○",
            more=hit,
        )


def _more(hit: ListedAnimal, place: Place) -> str:
    parents = f"dam {hit.dam or 'unknown'}, sire {hit.sire or 'unknown or in doubt'}"
    return f"{hit.tag}\n\n{describe(hit, place.app.book_session)}\n\nborn {hit.born or 'unknown'}\n{parents}"
