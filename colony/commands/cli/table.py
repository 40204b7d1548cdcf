"""Draw a table: as it is where it fits the terminal, folded by rich where it does not."""

import os
import shutil
import sys
from collections.abc import Sequence
from typing import Literal

Lines = Sequence[Sequence[str]]

_LONG_WORD = 14
"""A column of words is not made narrower than its longest word, up to this."""

_WIDE = 200
"""Columns when nobody looks: a table in a pipe is not cut."""

_GAP = 2


def draw(columns: Sequence[str], lines: Lines) -> None:
    """Print a table of printable cells; a column whose head starts with ``>`` is set right."""
    heads = [head.lstrip(">") for head in columns]
    right = [head.startswith(">") for head in columns]
    widths = [max(map(_cells, column)) for column in zip(heads, *lines, strict=True)]
    total = sum(widths) + _GAP * (len(widths) - 1)
    if total > _room():
        _fold(heads, right, lines, widths)
        return
    drawn = [_line(heads, right, widths), "\N{BOX DRAWINGS LIGHT HORIZONTAL}" * total]
    drawn += [_line(line, right, widths) for line in lines]
    sys.stdout.write("\n".join(drawn) + "\n")


def _room() -> int:
    if sys.stdout.isatty() or "COLUMNS" in os.environ:
        return shutil.get_terminal_size().columns
    return _WIDE


def _cells(text: str) -> int:
    """Columns that a text takes on the screen."""
    if text.isascii():
        return len(text)
    from rich.cells import cell_len

    return cell_len(text)


def _line(texts: Sequence[str], right: Sequence[bool], widths: Sequence[int]) -> str:
    padded = []
    for text, to_the_right, width in zip(texts, right, widths, strict=True):
        space = " " * (width - _cells(text))
        padded.append(space + text if to_the_right else text + space)
    return (" " * _GAP).join(padded).rstrip()


def _fold(heads: Sequence[str], right: Sequence[bool], lines: Lines, widths: Sequence[int]) -> None:
    from rich import box
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(box=box.SIMPLE_HEAD, pad_edge=False, show_edge=False, padding=(0, 1, 0, 0))
    narrowest = []
    for column in zip(heads, *lines, strict=True):
        longest = max((_cells(word) for cell in column for word in cell.split()), default=1)
        narrowest.append(min(_LONG_WORD, longest))
    allotted = _allotted(widths, narrowest)
    for head, to_the_right, width in zip(heads, right, allotted, strict=True):
        justify: Literal["left", "right"] = "right" if to_the_right else "left"
        table.add_column(Text(head), justify=justify, overflow="fold", width=width)
    for line in lines:
        table.add_row(*map(Text, line))
    # Rather a line that the terminal breaks than a figure that is cut off.
    needed = sum(allotted) + _GAP * len(allotted)
    console = Console(highlight=False, markup=False, emoji=False, width=max(_room(), needed))
    with console.capture() as capture:
        console.print(table)
    drawn = (line.rstrip() for line in capture.get().splitlines())
    sys.stdout.write("\n".join(drawn) + "\n")


def _allotted(widths: Sequence[int], narrowest: Sequence[int]) -> list[int]:
    """Take from the widest column that has words to fold until the table fits, if it can."""
    found = list(widths)
    over = sum(found) + _GAP * (len(found) - 1) - _room()
    for _ in range(max(over, 0)):
        wordy = [n for n, width in enumerate(found) if width > narrowest[n]]
        if not wordy:
            break
        found[max(wordy, key=lambda n: found[n])] -= 1
    return found
