"""One tank as a box: its code and role, its load as a bar, and who is in it."""

from textual.content import Content
from textual.events import Click, Focus
from textual.message import Message
from textual.widget import Widget

from colony.acts.tanks.loads import TankLine
from colony.screens.widgets.bars import bar

ROLE_MARKS = {"intake": "○ ", "hospital": "+ "}
"""Roles that are kept apart have a mark before their name."""

BAR = 9
"""Cells of a load bar that is full to twice the limit."""


class TankBox(Widget, can_focus=True):
    """A tank in the house; focus looks at it, Enter or a click chooses it."""

    class Focused(Message):
        """The box has the keys."""

        def __init__(self, box: "TankBox") -> None:
            super().__init__()
            self.box = box

    class Chosen(Message):
        """The box was chosen."""

        def __init__(self, box: "TankBox") -> None:
            super().__init__()
            self.box = box

    def __init__(self, tank: TankLine) -> None:
        super().__init__()
        self.tank = tank
        self._show()

    def renew(self, tank: TankLine) -> None:
        """Show the tank as it is now."""
        self.tank = tank
        self._show()
        self.refresh()

    def on_focus(self, _: Focus) -> None:
        """Tell that this one has the keys."""
        self.post_message(self.Focused(self))

    def on_click(self, event: Click) -> None:
        """A click is a choice."""
        event.stop()
        self.focus()
        self.post_message(self.Chosen(self))

    def render(self) -> Content:
        """Two lines: how full, and who."""
        tank = self.tank
        if tank.load is None:
            filled = "size not known"
        else:
            share = tank.load / (2 * tank.load_limit)
            filled = f"{bar(share, BAR, limit=0.5)} {tank.load:>4.0%}"
        animals = " ".join(tank.animals) or "empty"
        return Content.assemble((filled, "$secondary"), f"\n{len(tank.animals)}: {animals}")

    def _show(self) -> None:
        title = f"{self.tank.tank} {ROLE_MARKS.get(self.tank.role, '')}{self.tank.role}"
        # A title is read as markup: what stands in the book has to stay inert.
        self.border_title = Content(title).markup
        until = self.tank.isolated_until
        isolated = f"isolated to {until.day} {until:%b}" if until else ""
        self.border_subtitle = "! over its limit" if self.tank.breaks else isolated
        self.set_class(bool(self.tank.breaks), "over")
        self.set_class(self.tank.isolated_until is not None, "isolated")
