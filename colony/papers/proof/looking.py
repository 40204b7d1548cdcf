"""Find the code of a paper in a PDF or a picture of it."""

from contextlib import closing
from pathlib import Path
from typing import Any

from colony.refusals.proofs import CannotLook, NotACode

DOTS_PER_INCH = 200
_POINTS = 72
_PDF = b"%PDF-"


def code_in(path: Path) -> str:
    """The text of the code in a file: a PDF, a picture, or a plain text.

    Raises
    ------
    CannotLook
        It can be read as none of them.
    NotACode
        There is no code in it.
    """
    try:
        content = path.read_bytes()
    except OSError as failed:
        raise CannotLook(str(path)) from failed
    if content.startswith(_PDF):
        return _first(_pages(content, path), path)
    try:
        from PIL import Image  # noqa: PLC0415 - only who verifies loads it

        with Image.open(path) as picture:
            return _first([picture.convert("L")], path)
    except (OSError, ValueError):
        pass
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as broken:
        raise CannotLook(str(path)) from broken


def _pages(content: bytes, path: Path) -> list[Any]:
    """Each page of a PDF as a picture in greys."""
    import pypdfium2  # noqa: PLC0415 - the same

    try:
        document = pypdfium2.PdfDocument(content)
    except pypdfium2.PdfiumError as broken:
        raise CannotLook(str(path)) from broken
    with closing(document):
        return [
            page.render(scale=DOTS_PER_INCH / _POINTS).to_pil().convert("L") for page in document
        ]


def _first(pictures: Any, path: Path) -> str:  # noqa: ANN401 - pictures of Pillow
    import zxingcpp  # noqa: PLC0415 - the same

    for picture in pictures:
        for found in zxingcpp.read_barcodes(picture):
            return str(found.text)
    raise NotACode(path.name)
