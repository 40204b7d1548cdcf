"""A question over the screen that asks it: only its own keys answer."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container
from textual.screen import ModalScreen
from textual.widgets import Static


class Question(ModalScreen[bool]):
    """Asks yes or no; Enter answers nothing, for it may have been typed ahead."""

    HELP: ClassVar[str | None] = "y says yes; n or Esc leaves all as it is."
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer(True)", "Yes"),
        Binding("n,escape", "answer(False)", "No"),
    ]

    def __init__(self, asked: str, why: str) -> None:
        super().__init__()
        self._asked, self._why = asked, why

    def compose(self) -> ComposeResult:
        """What is asked, why it is, and the keys that answer."""
        with Container(id="question"):
            yield Static(self._asked, markup=False, id="question-asked")
            yield Static(f"▲ {self._why}", markup=False, id="question-why")
            yield Static("y yes · n or Esc no", markup=False, id="question-keys")

    def action_answer(self, yes: bool) -> None:
        """Close with the answer."""
        self.dismiss(yes)
