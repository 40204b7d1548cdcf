"""Draw the pictures of the README from the program itself: `python docs/draw_pictures.py`."""

import sys
import tempfile
from pathlib import Path

from textual.pilot import Pilot

DOCS = Path(__file__).parent
sys.path.insert(0, str(DOCS.parent / "tests" / "screens"))

from screens_house import TODAY, drive  # noqa: E402 - it stands with the tests

from colony.acts.sample import make_sample_book  # noqa: E402 - after the path is set
from colony.screens.app import ColonyApp  # noqa: E402 - the same

PICTURES = {"today": ["1"], "house": ["6"]}
"""Each picture, and the keys that lead to it."""

SIZE = (112, 34)


async def _drawn(app: ColonyApp, _pilot: Pilot[None]) -> str:
    return app.export_screenshot(title="colony")


def draw_pictures(folder: Path) -> None:
    """Draw every picture, on the sample colony of its own day."""
    with tempfile.TemporaryDirectory() as place:
        book = Path(place) / "sample.colony"
        make_sample_book(location=str(book), today=TODAY)
        for name, keys in PICTURES.items():
            picture = drive(book, *keys, size=SIZE, look=_drawn)
            (folder / f"{name}.svg").write_text(picture or "", "utf-8")


if __name__ == "__main__":
    draw_pictures(DOCS / "pictures")
