"""Open the screens on a book."""

import sys

from colony.screens.app import ColonyApp
from colony.screens.desk import Desk
from colony.store.book import open_book
from colony.store.location import book_location

SWITCH_SECONDS = 0.0005
"""How long a computation in a thread may keep the keys waiting; Python's own 5 ms add up."""


def run_screens() -> None:
    """Open the book and keep the screens up until the breeder leaves."""
    sys.setswitchinterval(SWITCH_SECONDS)
    book = open_book(book_location(), begin=True)
    desk = Desk(book)
    desk.begin()
    try:
        ColonyApp(desk).run()
    finally:
        book.close()
