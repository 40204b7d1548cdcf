"""Every place, form and key of the program, found by typing."""

from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING, cast

from textual.command import DiscoveryHit, Hit, Hits, Provider

from colony.screens.forms.table import FORMS
from colony.screens.frame.about import About
from colony.screens.frame.application import Application
from colony.screens.frame.keys_page import keys_of
from colony.screens.frame.places import PLACES
from colony.screens.frame.themes import THEMES

if TYPE_CHECKING:
    from collections.abc import Callable


PLANS = {
    "plan": ("Plan pairings  (4 g)", "The best pairs of the whole colony, with what-if."),
    "moves": ("Plan moves  (6 g)", "The fewest moves that keep every limit."),
}
"""The pages of plans, which no line leads to."""


class EveryCommand(Provider):
    """All that can be done, each by its name with its key beside it."""

    def _all(self) -> "Iterator[tuple[str, str, Callable[[], object]]]":
        app = cast("Application", self.app)
        for key, words, action in keys_of(self.screen):
            call = partial(self.app.run_action, action, self.screen)
            yield f"{words}  ({key})", "On this screen.", call
        for name, place in PLACES.items():
            yield f"{place.title}  ({place.key})", place.about, partial(app.action_go, name)
        for name, form in FORMS.items():
            keyed = f"{form.title}  ({form.key})" if form.key else form.title
            yield keyed, form.about, partial(app.action_form, name)
        for name, (title, about) in PLANS.items():
            yield title, about, partial(app.open_about, About(name, ""))
        yield "Undo  (u)", "Take your last act back.", partial(app.run_action, "undo")
        yield "Keys  (?)", "Every key that works here.", partial(app.run_action, "help")
        yield "Light or dark  (L)", "Change the colours.", partial(app.run_action, "light")
        for theme in THEMES:
            yield (
                f"Colours: {theme.name}",
                "Use these colours.",
                partial(setattr, app, "theme", theme.name),
            )
        yield "Picture", "Save this screen as a picture (SVG).", app.save_screenshot
        yield "Leave  (q)", "Close the program; everything is written.", app.exit

    async def discover(self) -> Hits:
        """List everything before anything is typed."""
        for title, about, call in self._all():
            yield DiscoveryHit(title, call, help=about)

    async def search(self, query: str) -> Hits:
        """List what matches."""
        matcher = self.matcher(query)
        for title, about, call in self._all():
            if (score := matcher.match(f"{title} {about}")) > 0:
                yield Hit(score, matcher.highlight(title), call, help=about)
