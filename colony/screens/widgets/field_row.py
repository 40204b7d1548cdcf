"""One field of a form on the screen: its label, what is typed, and how it was understood."""

from collections.abc import Sequence

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static

from colony.screens.forms.fields.fields import FormField, Understood
from colony.screens.frame.outcome import Outcome, attempt
from colony.screens.frame.session import BookSession


class FieldRow(Vertical):
    """A field with its label on the left and its line of words below."""

    class Checked(Message):
        """What stands in a field was read."""

        def __init__(self, text: str, read: Outcome[Understood], may_become: Sequence[str]) -> None:
            super().__init__()
            self.text, self.read, self.may_become = text, read, may_become

    class Shown(Message):
        """What stands in a field is explained below it."""

    def __init__(self, field: FormField, book_session: BookSession, first: str) -> None:
        super().__init__(id=f"field-{field.name}")
        self.field, self.first, self._book_session = field, first, book_session
        self.read: Outcome[Understood] | None = None
        self.may_become: Sequence[str] = ()

    def compose(self) -> ComposeResult:
        """Label and input on one line, words below."""
        with Horizontal():
            yield Static(f"{self.field.label}{' *' if self.field.needed else ''}", classes="label")
            yield Input(
                self.first, placeholder=self.field.empty, compact=True, select_on_focus=True
            )
        yield Static("", classes="words")

    @property
    def input(self) -> Input:
        """Where one types."""
        return self.query_one(Input)

    @property
    def text(self) -> str:
        """What is typed."""
        return self.input.value.strip() if self.is_mounted else self.first

    @property
    def is_changed(self) -> bool:
        """Whether something else stands there than at first."""
        return self.text != self.first

    def fill(self, text: str) -> None:
        """Write something into the field, as if it had stood there from the first."""
        self.first = text
        self.input.value = text
        self.read = None
        self._say("")

    def understand(self) -> Outcome[Understood]:
        """Read the field now, completing what has only one end; an empty one is None."""
        if not self.text:
            problem = f"{self.field.label} is needed." if self.field.needed else ""
            self.read = Outcome(Understood(None), problem)
        else:
            self.read = self._read(self.text)
            if self.read.problem:
                self._complete()
        self._show()
        return self.read

    def refuse(self, problem: str) -> None:
        """Show at this field why the act was refused."""
        self.read = Outcome(None, problem)
        self._show()

    def on_input_changed(self, _: Input.Changed) -> None:
        """Read while typing."""
        self.read_on()

    def read_on(self) -> None:
        """Read what stands here, in a thread: some fields ask the book."""
        text = self.text
        if not text:
            self.read, self.may_become = None, ()
            self._say("")
            return
        self.run_worker(lambda: self._check(text), thread=True, exclusive=True, group="check")

    def on_field_row_checked(self, event: Checked) -> None:
        """Show what was read, unless more was typed since."""
        event.stop()
        if event.text == self.text:
            self.read, self.may_become = event.read, event.may_become
            self._show()
            self.post_message(self.Shown())

    def _check(self, text: str) -> None:
        may_become = self._may_become(self.field.spoken(text))
        exact = any(found.casefold() == self.field.spoken(text).casefold() for found in may_become)
        read = Outcome[Understood]() if may_become and not exact else self._read(text)
        self.post_message(self.Checked(text, read, may_become))

    def _may_become(self, spoken: str) -> Sequence[str]:
        """What begins so; nothing where the book cannot be asked, which reading it then says."""
        return attempt(lambda: self.field.complete(spoken, self._book_session)).answer or ()

    def _read(self, text: str) -> Outcome[Understood]:
        return attempt(lambda: self.field.understand(text, self._book_session))

    def _complete(self) -> None:
        """Take the one thing that it may become; among several only the breeder chooses."""
        spoken = self.field.spoken(self.text)
        may_become = self._may_become(spoken) if spoken else ()
        if len(may_become) > 1:
            some = ", ".join(may_become)
            self.read = Outcome(None, f"Several begin with {spoken}: {some}. Type more of it.")
        elif may_become:
            with self.prevent(Input.Changed):
                self.input.value = self.text[: len(self.text) - len(spoken)] + may_become[0]
            self.read = self._read(self.text)

    def _show(self) -> None:
        if self.read is None:
            self._say("")
        elif self.read.problem:
            self._say(f"! {self.read.problem}", "wrong")
            if self.input.has_focus:
                # In a long form the words below the field would stand out of sight.
                self.scroll_visible(animate=False)
        elif self.read.answer is None:
            self._say("→ " + "  ".join(self.may_become), "may")
        else:
            self._say(self.read.answer.words and f"= {self.read.answer.words}")

    def _say(self, words: str, kind: str = "") -> None:
        self.set_class(kind == "wrong", "wrong")
        self.query_one(".words", Static).update(Content(words))
