"""Open the screens on a book."""

import gc
import sys

from colony.screens.app import ColonyApp
from colony.screens.frame.session import BookSession
from colony.store.book import open_book
from colony.store.location import book_location

SWITCH_SECONDS = 0.0005
"""How long a computation in a thread may keep the keys waiting; Python's own 5 ms add up."""


def keep_keys_quick() -> None:
    """Let neither a computation in a thread nor the garbage collector hold up a key.

    What is loaded by now stays to the end: the collector need not look at it again, which
    took it 150 ms each time on a book of 20,000 animals.
    """
    sys.setswitchinterval(SWITCH_SECONDS)
    gc.freeze()


def run_screens() -> None:
    """Open the book and keep the screens up until the breeder leaves.

    Raises
    ------
    ScreensFailed
        A fault of the program ended them.
    """
    keep_keys_quick()
    book = open_book(book_location(), begin=True)
    book_session = BookSession(book)
    book_session.begin()
    app = ColonyApp(book_session)
    try:
        app.run()
    finally:
        book_session.book.close()
    if app.fault is not None:
        raise app.fault
