"""The keys that work everywhere, as data: the places, the forms, and the program itself."""

from textual.binding import Binding

from colony.screens.forms.table import FORMS
from colony.screens.frame.places import PLACES

PROGRAM = (
    Binding("slash", "go('animals')", "Find", key_display="/"),
    Binding("r", "go('pups')", "Ready", show=False),
    Binding("u", "undo", "Undo"),
    Binding("question_mark,f1", "help", "Keys", key_display="?"),
    Binding("L", "light", "Light or dark", show=False),
    Binding("ctrl+p,colon", "command_palette", "All commands", show=False, key_display="^p"),
    Binding("q,ctrl+q", "quit", "Leave", show=False, key_display="q"),
)
"""The program's own keys."""

KEYS = (
    *(
        Binding(place.key, f"go('{name}')", place.title, show=False)
        for name, place in PLACES.items()
    ),
    *(
        Binding(form.key, f"form('{name}')", form.title, show=form.often)
        for name, form in FORMS.items()
        if form.key
    ),
    *PROGRAM,
)
"""Every key that works everywhere."""
