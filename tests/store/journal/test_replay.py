"""The journal alone tells the whole book: after any acts, what it tells is what the tables hold."""

import contextlib
import shutil
import tempfile
from datetime import timedelta
from pathlib import Path
from typing import Any

import hypothesis.strategies as st
import pytest
from hypothesis import HealthCheck, settings
from hypothesis.stateful import RuleBasedStateMachine, initialize, rule
from safety_house import TODAY, House, furnished, rows_of

from colony.acts.animals.animals import end_animal
from colony.acts.animals.species import set_trait
from colony.acts.book.history import list_history
from colony.acts.book.settings import set_setting
from colony.acts.book.undo import undo_act, undo_last
from colony.acts.health.holds import hold, release
from colony.acts.litters.edit import edit_litter
from colony.acts.pairings.pairings import end_pairing, note_finding
from colony.notation.fields.facts import LitterFacts
from colony.notation.shares import parse_sires
from colony.refusals.base import Refusal
from colony.refusals.books import BookAlreadyThere
from colony.store.backups.transfer import book_rows, copy_book, digest, rebuild_book
from colony.store.book import Book, open_book
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows

TAGS = st.sampled_from(["Alma", "Bruno", "Caro", "Dora", "Eva", "Fred"])
DAYS = st.integers(0, 900).map(lambda ago: TODAY - timedelta(days=ago))
WIDTHS = st.integers(60, 600)


def told_wrongly(book: Book) -> list[Any]:
    """Rows that are not as the journal tells."""
    with book.reading() as session:
        return differences(recorded_rows(read_entries(session)), kept_rows(session.connection()))


class Years(RuleBasedStateMachine):
    """Acts of any order and sense, refused ones among them, and undos between them."""

    @initialize()
    def begin(self) -> None:
        """A furnished house in a book of its own."""
        self.folder = Path(tempfile.mkdtemp())
        self.book = open_book(str(self.folder / "farm.colony"), begin=True)
        self.house = furnished(self.book)

    def may(self, act: Any, *words: Any, **facts: Any) -> None:  # noqa: ANN401 - any act of the house
        """Do an act that may well be refused; then not a row has changed."""
        before = rows_of(self.book)
        try:
            act(*words, **facts)
        except Refusal:
            assert rows_of(self.book) == before

    @rule(tag=TAGS, sex=st.sampled_from("FMU"), tank=st.sampled_from(["B1", "B2", None]))
    def add(self, tag: str, sex: str, tank: str | None) -> None:
        """A new animal, or a tag that is taken."""
        self.may(self.house.animal, tag, sex, tank)

    @rule(tag=TAGS, note=st.text("ab \n'\"{}", max_size=4), dam=TAGS, back=st.booleans())
    def edit(self, tag: str, note: str, dam: str, *, back: bool) -> None:
        """Facts of an animal, its dam perhaps one that cannot be."""
        self.may(self.house.edit, tag, note=note, held_back=back, dam=dam if back else None)

    @rule(tag=TAGS, sires=st.permutations(["Bruno=0.7", "Caro=0.2", "unknown=0.1"]))
    def doubt(self, tag: str, sires: list[str]) -> None:
        """Doubtful sires, in place of those written before."""
        self.may(self.house.edit, tag, sires=parse_sires(sires))

    @rule(dam=TAGS, sires=st.lists(TAGS, min_size=1, max_size=3), on=DAYS)
    def pair(self, dam: str, sires: list[str], on: Any) -> None:  # noqa: ANN401 - a date
        """A pairing."""
        self.may(self.house.pair, dam, *sires, on=on)

    @rule(dam=TAGS, on=DAYS)
    def part(self, dam: str, on: Any) -> None:  # noqa: ANN401 - a date
        """The end of a pairing."""
        self.may(self.house.do, "pairing end", end_pairing, dam=dam, on=on, today=TODAY)

    @rule(dam=st.sampled_from(["Alma", "Dora"]), pups=st.sampled_from(["1F1M", "3U"]), born=DAYS)
    def bear(self, dam: str, pups: str, born: Any) -> None:  # noqa: ANN401 - a date
        """A birth."""
        self.may(self.house.litter, dam, pups, born)

    @rule(number=st.integers(1, 3), year=st.sampled_from([24, 25, 26]), born=DAYS)
    def mend_litter(self, number: int, year: int, born: Any) -> None:  # noqa: ANN401 - a date
        """Other sires and another day for a litter."""
        corrections = LitterFacts(sires=parse_sires(["Bruno=0.5", "unknown=0.5"]), born=born)
        facts = {"code": f"{year}-{number:02d}", "corrections": corrections, "today": TODAY}
        self.may(self.house.do, "litter edit", edit_litter, **facts)

    @rule(tag=TAGS, width_mm=WIDTHS, on=DAYS)
    def measure(self, tag: str, width_mm: int, on: Any) -> None:  # noqa: ANN401 - a date
        """A width."""
        self.may(self.house.measure, tag, width_mm, on)

    @rule(tag=TAGS, tank=st.sampled_from(["B1", "B2"]), on=DAYS)
    def move(self, tag: str, tank: str, on: Any) -> None:  # noqa: ANN401 - a date
        """A move."""
        self.may(self.house.move, tag, tank, on)

    @rule(tag=TAGS, on=DAYS, how=st.sampled_from(["sold", "died", "gone"]))
    def end(self, tag: str, on: Any, how: str) -> None:  # noqa: ANN401 - a date
        """An end."""
        self.may(self.house.do, "animal end", end_animal, tag=tag, how=how, on=on, today=TODAY)

    @rule(tag=TAGS, on=DAYS, held=st.booleans())
    def hold(self, tag: str, on: Any, *, held: bool) -> None:  # noqa: ANN401 - a date
        """A hold, or its end."""
        facts = {"tag": tag, "on": on, "today": TODAY} | ({"why": "spots"} if held else {})
        self.may(self.house.do, "animal hold", hold if held else release, **facts)

    @rule(dam=TAGS, on=DAYS)
    def find(self, dam: str, on: Any) -> None:  # noqa: ANN401 - a date
        """A finding."""
        facts = {"finding": "pregnant", "method": "look", "on": on, "today": TODAY}
        self.may(self.house.do, "pairing finding", note_finding, dam=dam, **facts)

    @rule(days=st.integers(-1, 400), number=st.floats(0.1, 500))
    def choose(self, days: int, number: float) -> None:
        """A setting and a number of a species."""
        facts = {"key": "rest_days", "value": str(days)}
        self.may(self.house.do, "book settings", set_setting, **facts)
        trait = {"trait": "ready_age_days", "number": number, "source": "own records"}
        self.may(self.house.do, "species set", set_trait, name="leopoldi", **trait)

    @rule(count=st.integers(1, 4))
    def undo(self, count: int) -> None:
        """Back by some acts."""
        self.may(self.house.do, "book undo", undo_last, count=count)

    @rule(back=st.integers(0, 12))
    def undo_one(self, back: int) -> None:
        """One act somewhere, an undo perhaps."""
        with self.book.reading() as session:
            lines = list_history(session)
        self.may(
            self.house.do, "book undo", undo_act, number=lines[min(back, len(lines) - 1)].number
        )

    def teardown(self) -> None:
        """What the journal tells is what the tables hold, and so is the book rebuilt from it."""
        if not hasattr(self, "book"):
            return
        assert told_wrongly(self.book) == []
        rebuilt = rebuild_book(self.book, str(self.folder / "rebuilt.colony"))
        again = open_book(rebuilt.location)
        assert rows_of(again) == rows_of(self.book)
        assert digest(*book_rows(again)) == digest(*book_rows(self.book))
        with contextlib.suppress(Refusal):  # no act may be left to undo
            House(again).do("book undo", undo_last)
        again.close()
        self.book.close()
        shutil.rmtree(self.folder)


TestTheBookRebuiltFromItsJournalIsTheBook = Years.TestCase
TestTheBookRebuiltFromItsJournalIsTheBook.settings = settings(
    max_examples=8,
    stateful_step_count=30,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)


def test_a_rebuilt_book_does_not_need_the_other_tables(book: Book, tmp_path: Path) -> None:
    """Rows that were lost or changed behind the journal are again what the acts made of them."""
    house = furnished(book)
    house.pair("Alma", "Bruno", "Caro")
    house.litter("Alma", "2F1M")
    whole = rows_of(book)
    with book.engine.begin() as connection:
        connection.exec_driver_sql("DELETE FROM placement")
        connection.exec_driver_sql("UPDATE animal SET note = 'by hand'")
    assert {one.place[0] for one in told_wrongly(book)} == {"animal", "placement"}
    rebuilt = open_book(rebuild_book(book, str(tmp_path / "rebuilt.colony")).location)
    assert rows_of(rebuilt) == whole
    rebuilt.close()


def test_a_copy_in_another_database_is_equal_and_goes_on(
    book: Book, location: str, tmp_path: Path
) -> None:
    """A book moves between SQLite and PostgreSQL, and both give the next rows the same keys."""
    house = furnished(book)
    house.pair("Alma", "Bruno")
    house.litter("Alma", "2F1M")
    there = location if "://" in location else str(tmp_path / "there.colony")
    written = copy_book(book, there)
    copied = open_book(there)
    assert rows_of(copied) == rows_of(book)
    assert written.digest == digest(*book_rows(copied)) == digest(*book_rows(book))
    for each in (house, House(copied)):
        each.animal("Dora", "F", "B2")
    assert rows_of(copied) == rows_of(book)
    House(copied).do("book undo", undo_last, count=2)
    copied.close()
    with pytest.raises(BookAlreadyThere):
        copy_book(book, there)
