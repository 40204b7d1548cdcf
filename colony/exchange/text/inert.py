"""Cells that a spreadsheet would run as a formula are written so that it shows them instead."""

import re

_WOULD_RUN = re.compile(r"'*[=+\-@\t\r]")
_MADE_INERT = re.compile(r"'+[=+\-@\t\r]")


def make_inert(cell: str) -> str:
    """Put an apostrophe before a cell that begins as a formula does (OWASP, "CSV Injection")."""
    return f"'{cell}" if _WOULD_RUN.match(cell) else cell


def undo_inert(cell: str) -> str:
    """Take back exactly the apostrophe that `make_inert` puts."""
    return cell[1:] if _MADE_INERT.match(cell) else cell
