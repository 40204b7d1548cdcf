"""Turn the bytes of a file into text, whichever program wrote them."""

import codecs

from colony.refusals.exchange import NotPlainText

_MARKS = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)
_NOT_TEXT = (
    (b"PK\x03\x04", "a workbook or archive"),
    (b"\xd0\xcf\x11\xe0", "an old workbook"),
    (b"SQLite format 3\x00", "a database"),
    (b"%PDF", "a PDF"),
)


def decode(content: bytes, path: str) -> str:
    """Read UTF-8 or UTF-16 by their marks, else UTF-8, else Windows-1252, which holds Latin-1.

    Raises
    ------
    NotPlainText
        The bytes are those of a workbook, a database or a broken text.
    """
    for start, what in _NOT_TEXT:
        if content.startswith(start):
            raise NotPlainText(path, what)
    marked = next((name for mark, name in _MARKS if content.startswith(mark)), None)
    try:
        text = content.decode(marked) if marked else _unmarked(content)
    except UnicodeDecodeError as broken:
        raise NotPlainText(path, "broken text") from broken
    if "\x00" in text:
        raise NotPlainText(path, "a binary file")
    return text


def _unmarked(content: bytes) -> str:
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError:
        pass
    try:
        return content.decode("cp1252")
    except UnicodeDecodeError:
        # The bytes that Windows-1252 leaves open are control characters in Latin-1; whoever
        # reads such a cell refuses it with the line at hand.
        return content.decode("latin-1")
