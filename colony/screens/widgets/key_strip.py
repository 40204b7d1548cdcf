"""The bottom line: the keys that do something here."""

from textual.content import Content
from textual.style import Style
from textual.widget import Widget

LAST = ("help", "? Keys")
SHOWN = {"space": "Space", "enter": "Enter", "escape": "Esc", "slash": "/", "question_mark": "?"}


class KeyStrip(Widget):
    """The keys of the screen in the order in which it declares them; each can be clicked."""

    def on_mount(self) -> None:
        """Follow the focus: a field that is typed in takes letters for itself."""
        self.screen.bindings_updated_signal.subscribe(self, lambda _: self.refresh())

    def render(self) -> Content:
        """As many keys as fit, and always the one that lists them all."""
        room = self.size.width - len(LAST[1]) - 3
        parts: list[Content] = []
        for key, action, words in self._keys():
            text = f" {key} {words} "
            if len(text) > room:
                break
            room -= len(text)
            parts.append(_key(action, key, words))
        left = Content("").join(parts)
        gap = self.size.width - left.cell_length - len(LAST[1]) - 2
        return Content.assemble(left, " " * max(gap, 0), _key("app.help", "?", "Keys"))

    def _keys(self) -> list[tuple[str, str, str]]:
        seen: dict[str, tuple[str, str, str]] = {}
        for active in self.screen.active_bindings.values():
            binding = active.binding
            if binding.show and active.enabled and binding.action not in seen:
                node = "app" if active.node is self.app else "screen"
                action = binding.action if "." in binding.action else f"{node}.{binding.action}"
                key = binding.key_display or SHOWN.get(binding.key, binding.key)
                seen.setdefault(binding.action, (key, action, binding.description))
        return [key for key in seen.values() if key[1] != "app.help"]


def _key(action: str, key: str, words: str) -> Content:
    text = Content.assemble((f" {key} ", "bold $primary"), f"{words} ")
    return text.stylize(Style.from_meta({"@click": action}))
