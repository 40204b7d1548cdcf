"""Every key that works here, and what one does here."""

from collections.abc import Iterator, Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen, Screen
from textual.widgets import Static

from colony.screens.forms.table import FORMS
from colony.screens.frame.places import PLACES
from colony.screens.widgets.key_strip import SHOWN

ALWAYS = (
    ("Up, Down, PgDn", "move; Enter opens what a line is about"),
    ("Esc", "back, or stop what is being read; at last home"),
    ("/", "find a ray"),
    ("u", "undo: take your last act back"),
    ("r", "the ready list"),
    ("Space", "mark a line, where lines can be marked"),
    (": or ^p", "all commands, by typing"),
    ("? or F1", "this page; in a form F1"),
    ("L", "light or dark colours"),
    ("q", "leave; everything is written already"),
)
IN_FORMS = (
    ("Enter", "next field that wants an answer; when none does, write"),
    ("Tab, Up, Down", "any other field"),
    ("Esc", "close; asks before typed work is thrown away"),
    ("F2", "write although a limit breaks, where that is offered"),
)


class KeysPage(ModalScreen[None]):
    """A page of keys over the screen that asked for it."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,question_mark,f1,q,enter", "dismiss", "Close")
    ]

    def __init__(self, asking: Screen[object]) -> None:
        super().__init__()
        self._asking = asking

    def compose(self) -> ComposeResult:
        """What one does here, the places, the forms, and the keys that work everywhere."""
        with VerticalScroll(id="keys-page"):
            yield Static(getattr(self._asking, "HELP", ""), markup=False, classes="help-words")
            for title, keys in self._lists():
                rows = "\n".join(f"  {key:<14} {words}" for key, words in keys)
                yield Static(f"{title}\n{rows}\n", markup=False)

    def _lists(self) -> Iterator[tuple[str, Sequence[tuple[str, str]]]]:
        if isinstance(self._asking, ModalScreen):
            yield "In a form", IN_FORMS
        elif here := [(key, words) for key, words, _ in keys_of(self._asking)]:
            yield "Here", here
        yield "Places", [(place.key, place.about) for place in PLACES.values()]
        yield "Forms", [(form.key, form.about) for form in FORMS.values() if form.key]
        yield "Everywhere", ALWAYS
        if not isinstance(self._asking, ModalScreen):
            yield "In a form", IN_FORMS


def keys_of(screen: Screen[object]) -> list[tuple[str, str, str]]:
    """The keys that a screen has of its own: each key, its words and its action."""
    own = [binding for binding in screen.BINDINGS if isinstance(binding, Binding)]
    return [
        (
            binding.key_display or SHOWN.get(binding.key, binding.key),
            binding.description,
            binding.action,
        )
        for binding in own
        if binding.description and binding.key != "escape"
    ]
