"""One tank: its measures and limits, and who is in it; animals are marked and carried away."""

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.animals.search import ListedAnimal
from colony.acts.tanks.page import TankDetails as Tank
from colony.acts.tanks.page import show_tank
from colony.notation.days import show_span
from colony.notation.house import say_volume
from colony.screens.frame.about import About
from colony.screens.frame.dates import short_day
from colony.screens.frame.page import Page
from colony.screens.widgets.bars import bar
from colony.screens.widgets.columns import Column
from colony.screens.widgets.entry_list import EntryList, Line

COLUMNS = (
    Column("Animal", 14),
    Column("Sex", 3),
    Column("Species", 14, grows=True),
    Column("Age", 5, right=True),
    Column("Width", 8, right=True),
    Column("Dam", 12),
)

BAR = 40


class TankPage(Page):
    """The page of a tank."""

    HERE = "tanks"
    HELP: ClassVar[str | None] = (
        "Space marks animals, c carries the marked ones (or all) to another tank, m asks where to."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "mark", "Mark"),
        Binding("c", "carry", "Carry"),
    ]

    def body(self) -> Iterable[Widget]:
        """What is known of the tank, and who is in it."""
        yield Static("", id="page-head", markup=False)
        yield EntryList(COLUMNS, empty="Nobody is in this tank.")

    @property
    def about(self) -> About | None:
        """The animal under the highlight."""
        line = self.query_one(EntryList).line
        return line.about if line else self.subject

    def on_mount(self) -> None:
        """The list takes the keys."""
        self.query_one(EntryList).focus()

    def load(self) -> None:
        """Ask for the tank."""
        self.ask(show_tank, self._show, code=self.subject.key, today=self.app.book_session.today)

    def action_mark(self) -> None:
        """Mark an animal."""
        self.query_one(EntryList).toggle_mark()

    async def action_carry(self) -> None:
        """Go to the house with the marked animals, or with the highlighted one."""
        line = self.query_one(EntryList).line
        tags = self.marked_tags or ([line.about.tag] if line else [])
        if tags:
            await self.app.carry(tags)

    def _show(self, tank: Tank) -> None:
        self.query_one("#page-head", Static).update(self._head(tank))
        self.query_one(EntryList).show([self._line(occupant) for occupant in tank.occupants])

    def _head(self, tank: Tank) -> str:
        length = self.app.book_session.length
        size = (
            f"{length(tank.diameter_mm)} across"
            if tank.diameter_mm
            else f"{length(tank.length_mm)} x {length(tank.width_mm)}"
        )
        volume = f", {say_volume(tank.volume_l)}" if tank.volume_l else ""
        lines = [f"{tank.tank}, {tank.role}, on {tank.system}; {size}{volume}"]
        if tank.load is not None:
            filled = bar(tank.load / (2 * tank.load_limit), BAR, limit=0.5)
            lines.append(f"{filled} {tank.load:.0%} of the floor, limit {tank.load_limit:.0%}")
        if tank.isolated_until:
            lines.append(f"○ isolation until {short_day(tank.isolated_until)}")
        return "\n".join([*lines, *(f"! {reason}" for reason in tank.breaks)])

    def _line(self, hit: ListedAnimal) -> Line:
        age = "-" if hit.age_days is None else show_span(hit.age_days)
        width = self.app.book_session.length(hit.disc_width_mm)
        cells = (hit.tag, hit.sex, hit.species or "-", age, width, hit.dam or "-")
        return Line(About("animal", hit.tag, hit.sex), cells)
