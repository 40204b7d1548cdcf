"""The line above the keys: what was just written, what was refused, what changed elsewhere."""

from textual.content import Content
from textual.widget import Widget

from colony.screens.frame.status import Status


class Notice(Widget):
    """The last thing that was said; it stays until something else is."""

    def on_mount(self) -> None:
        """Follow what the program says."""
        self.watch(self.app, "said", self._show)

    def _show(self, said: Status) -> None:
        self.set_classes(said.kind)
        self.refresh(layout=True)

    def render(self) -> Content:
        """The mark of its kind, and the words."""
        said: Status = self.app.said  # type: ignore[attr-defined]
        return Content(f"{said.mark} {said.words}" if said.words else "")
