"""The pup's paper: one page, whose code a reader that is not ours reads back from a picture."""

from contextlib import closing
from datetime import date
from pathlib import Path

import pypdfium2
import pytest
from papers_of import PAPER, SECRET
from PIL import Image, ImageFilter

from colony.papers.proof.facts import PupPaper, facts_of
from colony.papers.proof.looking import code_in
from colony.papers.proof.pup_paper import CODE_MM, code_of, pup_paper
from colony.papers.proof.signed import read, sign

CODE = sign(facts_of(PAPER), SECRET)


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The paper as a PDF."""
    path = tmp_path_factory.mktemp("paper") / "paper.pdf"
    path.write_bytes(pup_paper(PAPER, CODE))
    return path


def picture(page: Path, pixels_wide: int) -> Image.Image:
    """The page as a camera has it, so many pixels across."""
    with closing(pypdfium2.PdfDocument(page)) as document:
        sheet = document[0]
        scale = pixels_wide / sheet.get_width()
        drawn: Image.Image = sheet.render(scale=scale).to_pil().convert("L")
    return drawn


def test_it_is_one_page_of_a4_with_everything_on_it(page: Path) -> None:
    """As a reader of PDFs finds the words."""
    with closing(pypdfium2.PdfDocument(page)) as document:
        assert len(document) == 1
        assert [round(side) for side in document[0].get_size()] == [595, 842]
        words = document[0].get_textpage().get_text_bounded()
    for part in (
        "26-01-3",
        "female leopoldi",
        "Bruno or Caro",
        "Iris x Ivo",
        "2.5 known",
        "15.8 cm",
    ):
        assert part in words
    assert "Stings" in words
    assert "permit office" in words


def test_the_code_is_read_back_from_the_page_and_from_pictures_of_it(
    page: Path, tmp_path: Path
) -> None:
    """From the PDF; at 1,200 pixels; at 600 pixels, straight; by zxing, which is not ours."""
    assert code_in(page) == CODE
    for pixels in (1200, 600):
        path = tmp_path / f"{pixels}.png"
        picture(page, pixels).save(path)
        assert read(code_in(path)).facts == facts_of(PAPER)


def test_it_is_read_from_a_picture_that_is_tilted_and_not_sharp(page: Path, tmp_path: Path) -> None:
    """600 pixels across the page, 10 degrees, blurred by a pixel."""
    path = tmp_path / "tilted.png"
    tilted = picture(page, 600).rotate(
        10, expand=True, fillcolor=255, resample=Image.Resampling.BICUBIC
    )
    tilted.filter(ImageFilter.GaussianBlur(1)).save(path)
    assert code_in(path) == CODE


def test_the_code_of_a_usual_pup_is_of_a_moderate_size() -> None:
    """Alphanumeric, level M, and wide enough for a hand: 45 mm or more."""
    code = code_of(CODE)
    assert (code.error, code.mode) == ("M", "alphanumeric")
    assert int(code.version) <= 16
    assert CODE_MM >= 45
    assert len(CODE) < 520


def test_an_animal_of_which_little_is_known_has_a_paper_too() -> None:
    """Nothing is made up: no parents, no width, no curve."""
    bare = PupPaper(
        *("P1", "motoro", "U", "", "", (), (), (), 0.0, 0.0, "", "", (), (), "unknown", ""),
        date(2026, 3, 9),
    )
    assert pup_paper(bare, sign(facts_of(bare), SECRET)).startswith(b"%PDF-")
