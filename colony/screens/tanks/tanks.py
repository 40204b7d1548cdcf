"""House: every tank as a box by system; animals are carried from one to another by keys."""

from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Any, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Grid, Vertical
from textual.widget import Widget
from textual.widgets import Static

from colony.acts.tanks.loads import TankLine, list_tanks
from colony.acts.tanks.page import why_not_move
from colony.acts.tanks.tanks import move
from colony.screens.frame.about import About
from colony.screens.frame.outcome import attempt
from colony.screens.frame.place import Place
from colony.screens.widgets.steps import nearest
from colony.screens.widgets.tank_box import TankBox


class House(Place):
    """The tanks in walking order, those that share water together."""

    HERE = "tanks"
    HELP: ClassVar[str | None] = (
        "Arrows walk from tank to tank; Enter looks into one. There, Space marks animals and c "
        "carries them: back here, arrows carry on, Enter puts them down, Esc keeps them where "
        "they were. A tank that does not take them says why."
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "choose", "Look in", key_display="Enter"),
        Binding("c", "carry", "Carry all"),
        Binding("g", "plan", "Plan moves"),
        Binding("f2", "anyway", "Anyway", show=False),
        Binding("left", "step(-1, 0)", show=False),
        Binding("right", "step(1, 0)", show=False),
        Binding("up", "step(0, -1)", show=False),
        Binding("down", "step(0, 1)", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self.carrying: Sequence[str] = ()
        self._tank_box: TankBox | None = None

    def body(self) -> Iterable[Widget]:
        """A heading and a grid for each system."""
        yield Static("", id="carrying", markup=False)
        yield Vertical(id="house")

    def on_mount(self) -> None:
        """Somebody may have come with animals in hand."""
        self._show_carrying()

    @property
    def about(self) -> About | None:
        """The tank that is looked at."""
        return About("tank", self._tank_box.tank.tank) if self._tank_box else None

    def load(self) -> None:
        """Ask for every tank."""
        self.ask(list_tanks, self._show, today=self.app.book_session.today)

    def carry(self, tags: Sequence[str]) -> None:
        """Begin to carry animals."""
        self.carrying = tags
        if self.is_mounted:
            self._show_carrying()

    def _show_carrying(self) -> None:
        tags = self.carrying
        words = (
            f"Carrying {', '.join(tags)}: arrows to a tank, Enter puts them down, Esc keeps them. "
            "▲ Rigid container, not a net; the sting is venomous."
        )
        self.query_one("#carrying", Static).update(words if tags else "")
        self.set_class(bool(tags), "carrying")

    def action_carry(self) -> None:
        """Carry everybody of the tank that is looked at."""
        if self._tank_box and self._tank_box.tank.animals:
            self.carry(self._tank_box.tank.animals)

    def action_plan(self) -> None:
        """Open the plan of moves."""
        self.app.open_about(About("moves", ""))

    def action_back(self) -> None:
        """Stop carrying, else go back."""
        if self.carrying:
            self.carry(())
            self.app.say("Nobody was moved.", "hint")
        else:
            super().action_back()

    def action_step(self, right: int, down: int) -> None:
        """Walk to the next tank in a direction."""
        boxes = list(self.query(TankBox))
        if self._tank_box is None or self._tank_box not in boxes:
            if boxes:
                boxes[0].focus()
            return
        found = nearest(self._tank_box.region, [box.region for box in boxes], right, down)
        if found is not None:
            boxes[found].focus()

    def action_choose(self) -> None:
        """Put down what is carried, or look into the tank."""
        if self._tank_box:
            self._choose(self._tank_box)

    def action_anyway(self) -> None:
        """Put down although a limit breaks."""
        if self._tank_box and self.carrying:
            self._put_down(self._tank_box.tank.tank, anyway=True)

    def on_tank_box_focused(self, event: TankBox.Focused) -> None:
        """Say what is wrong with the tank, or whether it takes what is carried."""
        self._tank_box = event.box
        tank = event.box.tank
        if self.carrying:
            self.ask(
                why_not_move,
                self._say_whether,
                tags=self.carrying,
                tank=tank.tank,
                today=self.app.book_session.today,
            )
        elif tank.breaks:
            self.app.say("; ".join(tank.breaks), "refused")
        else:
            self.app.say(f"{tank.tank} of {tank.system}: {', '.join(tank.animals) or 'empty'}")

    def on_tank_box_chosen(self, event: TankBox.Chosen) -> None:
        """A click chooses."""
        self._tank_box = event.box
        self._choose(event.box)

    def _choose(self, box: TankBox) -> None:
        if self.carrying:
            self._put_down(box.tank.tank, anyway=False)
        else:
            self.app.open_about(About("tank", box.tank.tank))

    def _put_down(self, tank: str, *, anyway: bool) -> None:
        book_session, tags = self.app.book_session, self.carrying
        facts: dict[str, Any] = {
            "tags": tags,
            "tank": tank,
            "on": book_session.today,
            "today": book_session.today,
        }
        done = attempt(lambda: book_session.act("tank move", move, anyway=anyway, **facts))
        if "why" in done.fields:
            # Let go of the animals, and bring the form that has room for a reason.
            self.carry(())
            self.app.call_later(self.app.action_form, "move", tags=", ".join(tags), tank=tank)
        if done.answer is None:
            self.app.say(done.problem, "refused")
            return
        self.carry(())
        odd = "".join(f" ! {warning}" for warning in done.answer.warnings)
        self.app.show_written(f"{', '.join(tags)} moved to {tank}.{odd}")

    def _say_whether(self, reasons: Sequence[str]) -> None:
        tank = self._tank_box.tank.tank if self._tank_box else ""
        if reasons:
            self.app.say(f"{tank} does not take them: {'; '.join(reasons)}. F2 anyway.", "refused")
        else:
            self.app.say(f"{tank} takes them: Enter puts them down.")

    async def _show(self, tanks: Sequence[TankLine]) -> None:
        boxes = {box.tank.tank: box for box in self.query(TankBox)}
        if list(boxes) == [tank.tank for tank in _by_system(tanks)]:
            for tank in tanks:
                boxes[tank.tank].renew(tank)
            return
        await self._build(tanks)

    async def _build(self, tanks: Sequence[TankLine]) -> None:
        house = self.query_one("#house", Vertical)
        await house.remove_children()
        if not tanks:
            await house.mount(Static("There is no tank yet: T writes one down."))
        for system, here in groupby(_by_system(tanks), key=lambda tank: tank.system):
            boxes = [TankBox(tank) for tank in here]
            await house.mount(Static(f"{system}, one water", classes="system"), Grid(*boxes))
        for first in list(self.query(TankBox))[:1]:
            first.focus()


def _by_system(tanks: Sequence[TankLine]) -> list[TankLine]:
    """Tanks by system, the systems in the order in which one meets them on the walk."""
    met = list(dict.fromkeys(tank.system for tank in tanks))
    return sorted(tanks, key=lambda tank: met.index(tank.system))
