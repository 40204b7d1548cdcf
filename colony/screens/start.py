"""Open the screens on a book."""

from colony.screens.app import ColonyApp
from colony.screens.desk import Desk
from colony.store.book import open_book
from colony.store.location import book_location


def run_screens() -> None:
    """Open the book and keep the screens up until the breeder leaves."""
    book = open_book(book_location(), begin=True)
    desk = Desk(book)
    desk.begin()
    try:
        ColonyApp(desk).run()
    finally:
        book.close()
