"""Random acts with undo and redo against a plain model, and a look at the whole book after each."""

import copy
from contextlib import suppress
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from colony.acts.animals.animals import add_animal, bring_back, edit_animal, end_animal
from colony.acts.book.check import check_book
from colony.acts.book.undo import undo_act, undo_last
from colony.acts.pups.measure import measure
from colony.acts.tanks.tanks import add_tank, move, set_system
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.base import Refusal
from colony.store.book import Book, open_book
from colony.store.journal.chain import journal_is_whole
from colony.store.outcome import WRITTEN

TODAY = date.today()  # noqa: DTZ011 - the day of the acts, as the journal has it
TAGS = ("Alma", "Bruno", "Caro", "Dora")
TANKS = ("A1", "A2")

Animals = dict[str, dict[str, Any]]
"""The plain model: what a breeder would have on a slate."""


class Acts(RuleBasedStateMachine):
    """A book, a slate beside it, and the acts that stand, with the slate before each."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory(ignore_cleanup_errors=True)
        self.book: Book = open_book(str(Path(self.folder.name) / "farm.colony"), begin=True)
        self.slate: Animals = {}
        self.standing: list[tuple[int, Animals]] = []
        self.undone: tuple[int, int, Animals, Animals] | None = None
        with self.book.act("tank system") as session:
            set_system(session, name="Main")
        for code in TANKS:
            with self.book.act("tank add") as session:
                size = {"length_mm": 4000, "width_mm": 4000}
                add_tank(session, code=code, system="Main", role="breeding", **size)

    def teardown(self) -> None:
        """Take the book away."""
        self.book.close()
        self.folder.cleanup()

    def do(self, name: str, act: Any, slate: Animals | None, /, **facts: Any) -> None:  # noqa: ANN401 - facts of any act
        """Do an act that a slate foresees, or that is refused: then nothing changes."""
        try:
            with self.book.act(name) as session:
                act(session, **facts)
        except Refusal:
            assert slate is None, f"{name} {facts} was refused"
            return
        assert slate is not None, f"{name} {facts} was not refused"
        if WRITTEN in session.info:
            self.standing.append((session.info[WRITTEN], self.slate))
            self.undone = None
        self.slate = slate

    def written(self, tag: str, **facts: Any) -> Animals:  # noqa: ANN401 - facts of an animal
        """The slate with an animal written anew."""
        return self.slate | {tag: self.slate.get(tag, {}) | facts}

    @rule(tag=st.sampled_from(TAGS), sex=st.sampled_from("FMU"))
    def add(self, tag: str, sex: str) -> None:
        """An animal arrives, unless its tag is taken."""
        new = {"status": "present", "note": None, "tank": None, "width": None, "sex": sex}
        slate = None if tag in self.slate else self.written(tag, **new)
        self.do("animal add", add_animal, slate, tag=tag, facts=AnimalFacts(sex=sex), today=TODAY)

    @rule(tag=st.sampled_from(TAGS), note=st.sampled_from(["calm", "shy", ""]))
    def note(self, tag: str, note: str) -> None:
        """Its note is corrected."""
        slate = self.written(tag, note=note or None) if tag in self.slate else None
        self.do(
            "animal edit", edit_animal, slate, tag=tag, facts=AnimalFacts(note=note), today=TODAY
        )

    @rule(tag=st.sampled_from(TAGS), width=st.integers(100, 400))
    def measured(self, tag: str, width: int) -> None:
        """It is measured; a second time on a day corrects the first."""
        slate = self.written(tag, width=width) if tag in self.slate else None  # its last day counts
        facts = {"width_mm": width, "on": TODAY, "anyway": True, "today": TODAY}
        self.do("pup measure", measure, slate, tag=tag, **facts)

    @rule(tag=st.sampled_from(TAGS), tank=st.sampled_from(TANKS))
    def moved(self, tag: str, tank: str) -> None:
        """It is carried into a tank, unless it is there."""
        there = self.is_here(tag) and self.slate[tag]["tank"] != tank
        facts = {"tags": [tag], "tank": tank, "on": TODAY, "why": "room", "anyway": True}
        slate = self.written(tag, tank=tank) if there else None
        self.do("tank move", move, slate, **facts, today=TODAY)

    @rule(tag=st.sampled_from(TAGS))
    def ended(self, tag: str) -> None:
        """It dies."""
        slate = self.written(tag, status="died") if self.is_here(tag) else None
        self.do("animal end", end_animal, slate, tag=tag, how="died", on=TODAY, today=TODAY)

    @rule(tag=st.sampled_from(TAGS))
    def brought_back(self, tag: str) -> None:
        """It did not die after all."""
        gone = tag in self.slate and not self.is_here(tag)
        slate = self.written(tag, status="present") if gone else None
        self.do("animal bring back", bring_back, slate, tag=tag)

    @precondition(lambda self: self.standing)
    @rule()
    def undo(self) -> None:
        """The last act that stands is taken back: the slate is the one before it."""
        number, before = self.standing.pop()
        with self.book.act("book undo") as session:
            done = undo_last(session)
        assert [line.number for line in done.undone] == [number]
        self.undone = (session.info[WRITTEN], number, self.slate, before)
        self.slate = before

    @precondition(lambda self: self.undone)
    @rule()
    def redo(self) -> None:
        """The undo is taken back: the act stands again."""
        assert self.undone is not None
        undo, number, after, before = self.undone
        with self.book.act("book undo") as session:
            undo_act(session, number=undo)
        self.standing.append((number, before))
        self.slate, self.undone = after, None

    @rule(tag=st.sampled_from(TAGS))
    def nothing_by_halves(self, tag: str) -> None:
        """An act that fails in its middle leaves nothing."""
        with suppress(ZeroDivisionError), self.book.act("animal add") as session:
            add_animal(session, tag=f"{tag}-half", facts=AnimalFacts(), today=TODAY)
            raise ZeroDivisionError

    @invariant()
    def the_book_is_the_slate(self) -> None:
        """Every animal is as it should be, and nothing in the whole book is wrong."""
        with self.book.reading() as session:
            wrong = [found for found in check_book(session, today=TODAY) if found.level == "wrong"]
            assert wrong == []
            assert journal_is_whole(session.connection()) is None
            rows = session.connection().exec_driver_sql(
                "SELECT tag, status, note, sex, "
                "(SELECT code FROM placement JOIN tank ON tank.id = tank_id"
                " WHERE animal_id = animal.id ORDER BY placement.id DESC LIMIT 1), "
                "(SELECT width_mm FROM measurement WHERE animal_id = animal.id) FROM animal"
            )
            found = {
                tag: {"status": status, "note": note, "sex": sex, "tank": tank, "width": width}
                for tag, status, note, sex, tank, width in rows
            }
        assert found == copy.deepcopy(self.slate)

    def is_here(self, tag: str) -> bool:
        """Whether the slate has it alive."""
        return tag in self.slate and self.slate[tag]["status"] == "present"


TestActs = Acts.TestCase
TestActs.settings = settings(
    max_examples=10, stateful_step_count=25, suppress_health_check=list(HealthCheck)
)
