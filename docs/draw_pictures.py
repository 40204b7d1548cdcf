"""Draw the pictures of the README from the program itself: `python docs/draw_pictures.py`."""

import re
import sys
import tempfile
from pathlib import Path

from textual.pilot import Pilot

DOCS = Path(__file__).parent
sys.path[:0] = [str(DOCS.parent), str(DOCS.parent / "tests" / "support")]

from screens_house import TODAY, drive  # noqa: E402 - it stands with the tests

from colony.acts.book.sample import make_sample_book  # noqa: E402 - after the path is set
from colony.screens.app import ColonyApp  # noqa: E402 - the same

PICTURES = {
    "today": (["down", "down"], (120, 36)),
    "house": (["6", "c", "right", "right"], (80, 24)),
}
"""Each picture: the keys that lead to what it shows, and the size of its screen."""


async def _drawn(app: ColonyApp, _pilot: Pilot[None]) -> str:
    """The screen as SVG, in a font of the viewer's own: nothing is fetched to look at it."""
    drawn = app.export_screenshot(title="colony")
    return re.sub(r"\s*@font-face \{.*?\}", "", drawn, flags=re.DOTALL)


def draw_pictures(folder: Path) -> None:
    """Draw every picture, on the sample colony of its own day."""
    with tempfile.TemporaryDirectory() as place:
        book = Path(place) / "sample.colony"
        make_sample_book(location=str(book), today=TODAY)
        for name, (keys, size) in PICTURES.items():
            picture = drive(book, *keys, size=size, look=_drawn)
            (folder / f"{name}.svg").write_text(picture or "", "utf-8")


if __name__ == "__main__":
    draw_pictures(DOCS / "pictures")
