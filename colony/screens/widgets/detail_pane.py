"""The pane beside a list: more of the line that is looked at, where the screen has room."""

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.content import ContentType
from textual.widgets import Static


class DetailPane(VerticalScroll):
    """Words or a drawing beside a list; hidden on a narrow screen."""

    can_focus = False
    _content: ContentType = ""

    def compose(self) -> ComposeResult:
        """One text that is replaced."""
        yield Static("", markup=False)

    def show(self, content: ContentType) -> None:
        """Show this in place of what is there, or once there is room for the pane."""
        self._content = content
        if self.display:
            self.query_one(Static).update(content)

    def on_show(self) -> None:
        """Show what was to be shown while there was no room."""
        self.query_one(Static).update(self._content)
