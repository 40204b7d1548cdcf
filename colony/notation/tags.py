"""What may stand as a tag, a name or a note, and which tags look like a mistyped one."""

import difflib
import re
import unicodedata
from collections.abc import Collection

from colony.refusals.notation import BadTag, UnprintableText

LONGEST_TAG, LONGEST_TEXT = 40, 2000
_TAG_NEVER_HOLDS = "=*,;"


def parse_tag(text: str) -> str:
    """Read a tag: 1 to 40 printable characters, none of ``= * , ;``, no dash in front.

    Raises
    ------
    BadTag
        It is empty, too long, or holds a character that the command line or a tag list needs.
    """
    tag = unicodedata.normalize("NFC", text).strip()
    wrong = [char for char in tag if not char.isprintable() or char in _TAG_NEVER_HOLDS]
    if not tag or len(tag) > LONGEST_TAG or wrong or tag.startswith("-"):
        raise BadTag(text)
    return tag


def parse_text(text: str, what: str, longest: int = LONGEST_TEXT) -> str:
    """Read a name or a note: printable characters only, at most `longest`.

    Raises
    ------
    UnprintableText
        It holds a control character (an escape code, say) or is too long.
    """
    plain = unicodedata.normalize("NFC", text).strip()
    if len(plain) > longest or not all(char.isprintable() or char == "\n" for char in plain):
        raise UnprintableText(what, longest)
    return plain


def tag_order(tag: str) -> tuple[tuple[int, str], ...]:
    """Where a tag stands in a list that a person reads: G2 before G10."""
    parts = re.split(r"(\d+)", tag.casefold())
    return tuple((int(part), "") if part.isdecimal() else (-1, part) for part in parts)


def printable(text: str) -> str:
    """Make any stored text safe to print: a control character shows as a replacement mark."""
    return (
        text
        if text.isprintable()
        else "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
    )


def nearest_tags(mistyped: str, tags: Collection[str], most: int = 3) -> list[str]:
    """Tags that `mistyped` may have meant, nearest first."""
    by_fold = {tag.casefold(): tag for tag in tags}
    near = difflib.get_close_matches(mistyped.casefold(), by_fold, n=most, cutoff=0.6)
    return [by_fold[fold] for fold in near]
