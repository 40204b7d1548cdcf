"""The line above the keys: what was just written, what was refused, what changed elsewhere."""

from textual.content import Content
from textual.widget import Widget

from colony.screens.frame.status import Status


class Notice(Widget):
    """The last thing that was said; it stays until something else is."""

    def on_mount(self) -> None:
        """Follow what the program says."""
        self.watch(self.app, "status", self._show)

    def _show(self, status: Status) -> None:
        self.set_classes(status.kind)
        self.refresh(layout=True)

    def render(self) -> Content:
        """The mark of its kind, and the words."""
        status: Status = self.app.status  # type: ignore[attr-defined]
        return Content(f"{status.mark} {status.words}" if status.words else "")
