"""The journal as a chain: what was changed, taken out or put in shows, also at its end.

SHA-256 is that of Python's hashlib, held to the test vector "abc" of FIPS 180-4 (2015), Secure
Hash Standard, appendix of examples.
"""

import hashlib
import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from safety_house import furnished

from colony.store.book import Book, open_book
from colony.store.journal.chain import CHAINED, broken_link, digest_of, journal_is_whole


def chained(*acts: str) -> tuple[list[dict[str, object]], str]:
    """Some entries that hold together, and the digest of the last."""
    entries: list[dict[str, object]] = []
    previous = ""
    for number, act in enumerate(acts, start=1):
        entry: dict[str, object] = dict.fromkeys(CHAINED, "")
        entry |= {"id": number, "act": act, "act_id": f"act-{number}", "previous": previous}
        previous = digest_of(entry)
        entries.append(entry)
    return entries, previous


def test_the_digest_is_the_standards() -> None:
    """Of the JSON list of what is chained, spelled out here by hand."""
    assert hashlib.sha256(b"abc").hexdigest().startswith("ba7816bf8f01cfea414140de5dae2223")
    (entry,), digest = chained("é")
    written = '[1,"","","\u00e9","","","act-1","",""]'
    assert json.loads(written)[3] == "é"
    assert digest == digest_of(entry) == hashlib.sha256(written.encode()).hexdigest()


def test_whole_entries_have_no_broken_link() -> None:
    """An empty journal is whole too."""
    entries, head = chained("a", "b", "c")
    assert broken_link(entries, head) is None
    assert broken_link([], "") is None


@pytest.mark.parametrize(
    ("harm", "found"),
    [
        (lambda entries: entries[0].update(summary="other"), 2),
        (lambda entries: entries[2].update(who="other"), 3),
        (lambda entries: entries.pop(1), 3),
        (lambda entries: entries.pop(), 2),
        (lambda entries: entries.insert(1, dict(entries[0], id=9)), 9),
    ],
)
def test_a_harm_is_found_at_the_next_entry(harm: object, found: int) -> None:
    """Of the last one the book itself holds the digest."""
    entries, head = chained("a", "b", "c")
    harm(entries)  # type: ignore[operator] # a function of the entries
    assert broken_link(entries, head) == found


def test_a_book_is_whole_until_its_file_is_changed(tmp_path: Path) -> None:
    """Each act is chained as it is written; one that was changed past the triggers is found."""
    book = open_book(str(tmp_path / "house.colony"), begin=True)
    furnished(book)
    with book.reading() as session:
        assert journal_is_whole(session.connection()) is None
    book.close()
    with closing(sqlite3.connect(book.location)) as raw:
        raw.execute("DROP TRIGGER journal_is_append_only_UPDATE")
        raw.execute("UPDATE journal SET summary = 'nothing' WHERE id = 2")
        raw.commit()
    with closing(open_book(book.location)) as changed, changed.reading() as session:
        assert journal_is_whole(session.connection()) == 3


def test_no_entry_is_replaced(book: Book) -> None:
    """REPLACE INTO, which fires no trigger of a deletion, is refused too."""
    furnished(book)
    if book.engine.dialect.name != "sqlite":
        pytest.skip("a way of SQLite")
    for number, act_id in ((2, "new"), (99, "'||(SELECT act_id FROM journal WHERE id = 2)||'")):
        with (
            pytest.raises(Exception, match="append-only"),
            book.engine.begin() as connection,
        ):
            connection.exec_driver_sql(
                "REPLACE INTO journal SELECT ?, at, who, act, 'other', changes, ?, db_user, previous"
                " FROM journal WHERE id = 2",
                (number, act_id if number == 2 else _act_id(connection)),
            )


def _act_id(connection: object) -> str:
    return str(
        connection.exec_driver_sql("SELECT act_id FROM journal WHERE id = 2").scalar()  # type: ignore[attr-defined] # a connection
    )
