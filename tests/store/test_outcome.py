"""What was written is known: an act sent twice, an answer that was lost, a wait that is told."""

import sqlite3
import threading
import time
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from safety_house import House, furnished
from sqlalchemy.exc import OperationalError
from sqlmodel import Session

from colony.acts.animals.animals import edit_animal
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.history import DoneAlready, OutcomeNotKnown
from colony.store import outcome
from colony.store.book import Book
from colony.store.engine import turn


@pytest.fixture
def house(book: Book) -> House:
    """A furnished house."""
    return furnished(book)


def note(house: House, text: str, act_id: str | None = None) -> int:
    """Correct the note of Alma; the number of the act."""
    with house.book.act("animal edit", act_id=act_id) as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note=text), today=TODAY)
    return int(session.info[outcome.WRITTEN])


TODAY = date(2026, 3, 9)


def acts(house: House) -> int:
    """How many acts are in the journal."""
    with house.book.engine.connect() as connection:
        return int(connection.exec_driver_sql("SELECT count(*) FROM journal").scalar_one())


def test_an_act_sent_again_is_not_written_twice(house: House) -> None:
    """The same id says which act it was, and exits as if it were done."""
    number = note(house, "first", "from-a-script-1")
    before = acts(house)
    with pytest.raises(DoneAlready, match=f"as act {number} on") as refused:
        note(house, "second", "from-a-script-1")
    assert refused.value.exit_code == 0
    assert acts(house) == before


def test_an_answer_that_was_lost_after_the_commit_is_looked_for(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The database wrote it and went away: it is found written."""
    really = Session.commit

    def lose_the_answer(session: Session) -> None:
        really(session)
        raise OperationalError("COMMIT", None, Exception("server closed the connection"))

    monkeypatch.setattr(Session, "commit", lose_the_answer)
    number = note(house, "written")
    monkeypatch.undo()
    assert number == acts(house)


def test_what_was_not_written_is_refused(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    """It went away before it wrote: nothing is there, and that is said."""
    before = acts(house)

    def fail(_session: Session) -> None:
        raise OperationalError("COMMIT", None, Exception("server closed the connection"))

    monkeypatch.setattr(Session, "commit", fail)
    with pytest.raises(Exception, match="server closed"):
        note(house, "lost")
    monkeypatch.undo()
    assert acts(house) == before


def test_what_cannot_be_asked_is_not_known(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    """Neither done nor refused: the history is to be looked at, and the id of the act is said."""

    def fail(*_args: object) -> None:
        raise OperationalError("COMMIT", None, Exception("server closed the connection"))

    monkeypatch.setattr(Session, "commit", fail)
    monkeypatch.setattr(outcome, "turn", fail)
    with pytest.raises(OutcomeNotKnown, match="COLONY_ACT_ID=mine it is not written twice"):
        note(house, "lost", "mine")


def test_a_stop_after_the_commit_says_that_it_is_written(
    house: House, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ctrl+C that comes while the database answers stops, and the act is known."""
    really = Session.commit

    def stop(session: Session) -> None:
        really(session)
        raise KeyboardInterrupt

    monkeypatch.setattr(Session, "commit", stop)
    with pytest.raises(KeyboardInterrupt), house.book.act("animal edit") as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="kept"), today=TODAY)
    assert session.info[outcome.WRITTEN] == acts(house)


def test_who_waits_is_told_after_a_second(house: House) -> None:
    """The other act goes on for a second and a half; then this one is written."""
    told: list[str] = []
    begun = threading.Event()

    def hold() -> None:
        with turn(house.book.engine):
            begun.set()
            time.sleep(1.5)

    other = threading.Thread(target=hold)
    other.start()
    begun.wait()
    with house.book.act("animal edit", waiting=told.append) as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="waited"), today=TODAY)
    other.join()
    assert len(told) == 1
    assert told[0].startswith("Waiting for ")


def test_who_need_not_wait_is_told_nothing(house: House, tmp_path: Path) -> None:
    """No timer goes off later."""
    told: list[str] = []
    with house.book.act("animal edit", waiting=told.append) as session:
        edit_animal(session, tag="Alma", facts=AnimalFacts(note="at once"), today=TODAY)
    with closing(sqlite3.connect(tmp_path / "nothing")):
        time.sleep(1.2)
    assert told == []
