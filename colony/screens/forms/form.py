"""A form: a few fields at the bottom of the screen, filled with keys, then written at once."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Any, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, Static

from colony.notation.cautions import CAUTIONS
from colony.refusals.base import Advice
from colony.screens.forms.fields.fields import FormField
from colony.screens.frame.about import About, Beginning
from colony.screens.frame.application import Application
from colony.screens.frame.outcome import Outcome, attempt, sentence_of
from colony.screens.widgets.field_row import FieldRow

if TYPE_CHECKING:
    from sqlmodel import Session


Facts = Mapping[str, Any]
"""What stands in the fields, by their names; None for an empty one."""


@dataclass(frozen=True)
class Done:
    """What a form did, in a sentence, and what looked odd."""

    sentence: str
    warnings: Sequence[str | Advice] = ()
    opens: About | None = None

    @property
    def in_words(self) -> str:
        """The sentence, and what looked odd after it."""
        odd = [
            sentence_of(warning) if isinstance(warning, Advice) else warning
            for warning in self.warnings
        ]
        return " ".join([self.sentence, *(f"! {each}" for each in odd)])


class Form(ModalScreen[Done | None]):
    """One form; a subclass names its fields and writes them."""

    app: Application

    TITLE_WORDS: ClassVar[str] = ""
    ACT: ClassVar[str] = ""
    """The act's name in the journal."""

    HELP: ClassVar[str | None] = (
        "A star marks a field that has to be filled; slanted words say what holds where one "
        "stays empty. Days: today, 3d ago, 2026-03-09. Lengths: 12.5cm, 5in."
    )
    AUTO_FOCUS = ""
    AGAIN: ClassVar[bool] = False
    """Whether the form stays for the next one after it was written."""

    FIELDS: ClassVar[Sequence[FormField]] = ()
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", show=False, priority=True),
        Binding("escape", "leave", "Close"),
        Binding("ctrl+s", "write", "Write"),
        Binding("f1", "app.help", "Keys", key_display="F1"),
        Binding("f2", "anyway", "Anyway"),
        Binding("down", "app.focus_next", show=False),
        Binding("up", "app.focus_previous", show=False),
    ]

    def __init__(self, beginning: Beginning) -> None:
        super().__init__()
        self.beginning = beginning
        self._seen = self.app.book_session.mark
        self._past: list[str] = []
        self._overridable = self._asked_to_leave = False
        self._asked: tuple[list[str], Facts] | None = None

    def initial(self) -> Mapping[str, str]:
        """What stands in the fields at first, from what the breeder looks at."""
        return {}

    def write(self, session: "Session", facts: Facts, *, anyway: bool, today: date) -> Done:
        """Do the act of this form in an open session."""
        raise NotImplementedError

    def asks(self, facts: Facts) -> str:  # noqa: ARG002 - forms that cannot hurt ask nothing
        """What is about to be written, where that is shown and wants an Enter of its own."""
        return ""

    def says_something(self) -> bool:
        """Whether Enter may write once no field wants an answer."""
        return True

    def compose(self) -> ComposeResult:
        """The title, the fields, the caution, and what the keys do."""
        initial = {field.name: field.first for field in self.FIELDS} | {
            **self.initial(),
            **self.beginning.initial,
        }
        with Container(id="form"):
            yield Static(self.TITLE_WORDS, id="form-title")
            yield Static("", id="form-past", classes="-none")
            with VerticalScroll(id="form-fields"):
                for field in self.FIELDS:
                    yield FieldRow(field, self.app.book_session, initial[field.name])
            # Before the caution: in a low window that is what gives way.
            yield Static("", id="form-status")
            if caution := CAUTIONS.get(self.ACT):
                yield Static(f"▲ {caution}", id="form-caution")

    def on_mount(self) -> None:
        """Begin at the first field without an answer: no key replaces what stands there.

        Fields that have to be filled come first; where all are filled, the last one is
        where a letter does least.
        """
        self.watch(self.app, "away", self._book_came_or_went)
        empty = next((row for row in self.rows if not row.text), self.rows[-1])
        # At once, not when there is time: the next key may be in the queue already.
        self.set_focus((self._open_row() or empty).input)

    @property
    def typed(self) -> list[str]:
        """What was typed and is not written: each field with what stands in it."""
        return [
            f"{self.TITLE_WORDS}, {row.field.label}: {row.text}"
            for row in self.rows
            if row.is_changed
        ]

    @property
    def rows(self) -> list[FieldRow]:
        """The fields in order."""
        return list(self.query(FieldRow))

    async def action_enter(self) -> None:
        """Go on to the next field that wants an answer, or write when none does."""
        self._asked_to_leave = False
        row = next((row for row in self.rows if row.input.has_focus), self.rows[0])
        if row.understand().problem:
            self._hint()
            return
        wanting = self._open_row()
        if wanting is not None:
            self.set_focus(wanting.input)
        elif self.says_something():
            await self.action_write()
        else:
            self.focus_next(Input)

    def on_input_changed(self, changed: Input.Changed) -> None:
        """Typing takes back the wish to leave, and what could be overridden; a reason does not."""
        if self._asked is not None and self._asked[0] == self._texts():
            # A letter typed before the question, told only now: what is asked stands.
            return
        self._asked_to_leave, self._asked = False, None
        if changed.input is not next((r.input for r in self.rows if r.field.name == "why"), None):
            self._overridable = False
        self._hint()

    def on_field_row_shown(self, _: FieldRow.Shown) -> None:
        """Say what Enter would do now that a field was read."""
        if not self._asked_to_leave and self._asked is None:
            self._hint()

    def action_leave(self) -> None:
        """Close the form; what was typed is not thrown away without asking."""
        typed = [row.field.label for row in self.rows if row.is_changed]
        if not typed or self._asked_to_leave:
            self.dismiss(None)
            return
        self._asked_to_leave, self._asked = True, None
        self._say(
            f"! Typed and not written: {', '.join(typed)}. Esc again throws it away.", "wrong"
        )

    async def action_anyway(self) -> None:
        """Write although a limit breaks, where that was offered."""
        if self._overridable:
            await self._write(anyway=True)

    async def action_write(self) -> None:
        """Write the form, if every field can be read."""
        await self._write(anyway=False)

    async def _write(self, *, anyway: bool) -> None:
        for row in self.rows:
            if row.understand().problem:
                self.set_focus(row.input)
                return
        facts = {row.field.name: row.read.answer.value for row in self.rows}  # type: ignore[union-attr]
        if self._asks_first(facts):
            return
        self._say("writing")
        work = self.run_worker(lambda: self._act(facts, anyway=anyway), thread=True)
        self._written(await work.wait())

    def _asks_first(self, facts: Facts) -> bool:
        """Show what is about to be written, once; the next Enter writes just that."""
        about = self._texts(), facts
        asked = "" if about == self._asked else self.asks(facts)
        if asked:
            self._asked = about
            self._say(f"▲ {asked} Enter writes it.", "asks")
        return bool(asked)

    def _texts(self) -> list[str]:
        """What stands in the fields, as it is typed."""
        return [row.text for row in self.rows]

    def _act(self, facts: Facts, *, anyway: bool) -> Outcome[Done]:
        book_session = self.app.book_session
        return attempt(
            lambda: book_session.act(
                self.ACT,
                self.write,
                seen=self._seen,
                facts=facts,
                anyway=anyway,
                today=book_session.today,
            )
        )

    def _written(self, written: Outcome[Done]) -> None:
        """Tell what was written, or show the refusal at its field."""
        if written.answer is None:
            self._refused(written)
            return
        done = written.answer
        self._seen = self.app.book_session.mark
        self.app.unmark(self._tags())
        self.app.show_written(done.in_words)
        if self.AGAIN:
            for row in self.rows:
                row.first = row.text
            self.go_on(done)
        else:
            self.dismiss(done)
            if done.opens is not None:
                self.app.open_about(done.opens)

    def go_on(self, done: Done) -> None:
        """Make the form ready for the next one."""

    def past(self, sentence: str) -> None:
        """Keep the last few that were written in sight."""
        self._past = [*self._past[-2:], sentence]
        past = self.query_one("#form-past", Static)
        past.update(Content("\n".join(f"■ {line}" for line in self._past)))
        past.remove_class("-none")

    def _tags(self) -> Collection[str]:
        """The animals with which something was done."""
        read = [row.read for row in self.rows if row.read and row.field.name in {"tag", "tags"}]
        values = [outcome.answer.value for outcome in read if outcome.answer]
        return {
            str(tag)
            for value in values
            for tag in (value if isinstance(value, tuple) else (value,))
        }

    def _refused(self, refused: Outcome[Done]) -> None:
        self._overridable = refused.overridable
        by_name = {row.field.name: row for row in self.rows}
        at = next((by_name[name] for name in refused.fields if name in by_name), None)
        if at is None:
            self._say(f"! {refused.problem}", "wrong")
            return
        at.refuse(refused.problem)
        self._hint()
        self.set_focus(at.input)

    def _open_row(self) -> FieldRow | None:
        """The first field that wants an answer: needed and empty, or refused."""
        return next(
            (
                row
                for row in self.rows
                if (row.field.needed and not row.text) or (row.read and row.read.problem)
            ),
            None,
        )

    def _book_came_or_went(self, away: str) -> None:
        """Say that the book is away; when it is there again, read anew what could not be read."""
        for row in self.rows:
            if not away and row.read and row.read.problem:
                row.read_on()
        self._hint()

    def _hint(self) -> None:
        if self.app.away:
            self._say(f"! {self.app.away}", "wrong")
            return
        wanting = [row.field.label for row in self.rows if row.field.needed and not row.text]
        wrong = [row.field.label for row in self.rows if row.read and row.read.problem]
        enter = f"Enter goes on to {wanting[0]}" if wanting else "Enter writes it"
        if wrong:
            enter = f"Correct {', '.join(wrong)}"
        anyway = " · F2 anyway" if self._overridable else ""
        self._say(f"{enter}{anyway} · Tab next field · Esc closes · F1 keys")

    def _say(self, words: str, kind: str = "") -> None:
        line = self.query_one("#form-status", Static)
        line.update(Content(words))
        line.set_classes(kind)
