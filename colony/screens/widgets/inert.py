"""No sign that commands a terminal reaches one: what is stored is shown, and nothing more."""

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

_SIGNS = (*range(0x20), *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A))
"""C0 and C1 (ECMA-48), and what turns the direction of writing (Unicode Standard Annex 9)."""

NOTHING = dict.fromkeys(_SIGNS)


class Inert(LineFilter):
    """Leave out control characters: they take no room, so that nothing moves.

    Acts refuse them; a book that was written past the program may still hold some.
    """

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:  # noqa: ARG002 - as the base
        """The same segments, each without them."""
        return [
            segment
            if segment.text.isprintable()
            else Segment(segment.text.translate(NOTHING), segment.style, segment.control)
            for segment in segments
        ]
