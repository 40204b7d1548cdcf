"""Make the pictures of docs/ anew, by the program: ``PYTHONPATH=. python tests/screens/make_pictures.py``."""

import re
import tempfile
from pathlib import Path

from screens_house import SMALL, TODAY, drive
from textual.pilot import Pilot

from colony.acts.sample import make_sample_book
from colony.screens.app import ColonyApp

ROOT = Path(__file__).parents[2]

PICTURES = {
    "today": (["down", "down"], (120, 36)),
    "house": (["6", "c", "right", "right"], SMALL),
}
"""Each picture: the keys that lead to what it shows, and the size of its screen."""


def main() -> None:
    """Draw the sample colony on its own day."""
    with tempfile.TemporaryDirectory() as folder:
        book = Path(folder) / "sample.colony"
        make_sample_book(location=str(book), today=TODAY)
        for name, (keys, size) in PICTURES.items():
            picture = drive(book, *keys, size=size, look=_draw)
            (ROOT / "docs" / "pictures" / f"{name}.svg").write_text(picture or "", "utf-8")


async def _draw(app: ColonyApp, _pilot: Pilot[None]) -> str:
    """The screen as SVG, in a font of the viewer's own: nothing is fetched to look at it."""
    drawn = app.export_screenshot(title="colony")
    return re.sub(r"\s*@font-face \{.*?\}", "", drawn, flags=re.DOTALL)


if __name__ == "__main__":
    main()
