"""A farm to test with: a story in a few lines, written into a real book by the acts themselves.

farm.tank("B1")
farm.female("Alma", born="2021-05", tank="B1")
farm.male("Bruno")
farm.pair("Alma", "Bruno", on="150d ago")
farm.litter("Alma", pups="2F1M", born="2d ago")
"""

from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from sqlalchemy import inspect
from sqlalchemy.exc import DBAPIError

from colony.acts.animals.animals import add_animal, edit_animal, end_animal
from colony.acts.health.holds import hold
from colony.acts.litters.record import LitterRecorded, record_litter
from colony.acts.pairings.pairings import note_finding, note_sign, start_pairing
from colony.acts.pups.measure import feed, measure
from colony.acts.tanks.tanks import add_tank, move, set_system
from colony.notation.days import parse_day, parse_day_as_known
from colony.notation.fields.facts import AnimalFacts
from colony.notation.measures import parse_length_mm
from colony.notation.pups import parse_pups
from colony.notation.shares import parse_sires
from colony.store.book import open_book

TODAY = date(2026, 3, 9)


class Farm:
    """One book, and a verb for each thing that happens on a farm."""

    def __init__(self, location: Path | str) -> None:
        self.location, self.path = str(location), Path(location)
        self.book = open_book(str(location), begin=True)
        self.today = TODAY

    def do(self, act: Callable[..., Any], **facts: Any) -> Any:  # noqa: ANN401 - whatever the act takes
        """Run one act in a transaction of its own."""
        with self.book.act(act.__name__) as session:
            return act(session, **facts)

    def ask(self, question: Callable[..., Any], **facts: Any) -> Any:  # noqa: ANN401 - the same
        """Ask something of the book."""
        with self.book.reading() as session:
            return question(session, **facts)

    def day(self, text: str) -> date:
        """A day as a breeder writes it."""
        return parse_day(text, self.today)

    def tank(self, code: str, size: str = "400cm", role: str = "breeding") -> None:
        """A square tank, on the system Main."""
        side_mm = parse_length_mm(size)
        self.do(set_system, name="Main")
        self.do(add_tank, code=code, system="Main", role=role, length_mm=side_mm, width_mm=side_mm)

    def animal(self, tag: str, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """An animal; days, sires and width as they are typed."""
        more = {name: facts.pop(name) for name in ("tank", "width") if name in facts}
        self.do(
            add_animal,
            tag=tag,
            facts=self._facts(**facts),
            tank=more.get("tank"),
            width_mm=parse_length_mm(more["width"]) if "width" in more else None,
            today=self.today,
        )

    def female(self, tag: str, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """A grown female P. leopoldi, unless the facts say otherwise."""
        self.animal(tag, **{"sex": "F", "born": "2019", "species": "leopoldi"} | facts)

    def male(self, tag: str, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """A grown male P. leopoldi, unless the facts say otherwise."""
        self.animal(tag, **{"sex": "M", "born": "2019", "species": "leopoldi"} | facts)

    def edit(self, tag: str, **facts: Any) -> None:  # noqa: ANN401 - facts of an animal
        """Mend facts of an animal."""
        new = {"tag": facts.pop("new_tag")} if "new_tag" in facts else {}
        self.do(edit_animal, tag=tag, facts=self._facts(**facts, **new), today=self.today)

    def end(self, tag: str, how: str = "died", on: str = "today") -> None:
        """It died, was sold or is gone."""
        self.do(end_animal, tag=tag, how=how, on=self.day(on), today=self.today)

    def pair(self, dam: str, *sires: str, on: str = "150d ago", tank: str | None = None) -> None:
        """A dam is kept with males from a day on."""
        self.do(start_pairing, dam=dam, sires=sires, on=self.day(on), tank=tank, today=self.today)

    def sign(self, dam: str, on: str, kind: str = "bite marks") -> None:
        """A mating sign was seen."""
        self.do(note_sign, dam=dam, kind=kind, on=self.day(on), today=self.today)

    def found(self, dam: str, finding: str, on: str = "today") -> None:
        """A pregnancy check found something."""
        self.do(
            note_finding,
            dam=dam,
            finding=finding,
            method="ultrasound",
            on=self.day(on),
            today=self.today,
        )

    def litter(
        self,
        dam: str,
        pups: str = "1F1M",
        sires: str | Sequence[str] = (),
        born: str = "today",
        **facts: Any,  # noqa: ANN401 - facts of a litter
    ) -> LitterRecorded:
        """A dam bore pups; `sires` as typed, one text or several."""
        texts = [sires] if isinstance(sires, str) else sires
        recorded: LitterRecorded = self.do(
            record_litter,
            dam=dam,
            sires=parse_sires(texts),
            born=self.day(born),
            pups=parse_pups(pups),
            today=self.today,
            **facts,
        )
        return recorded

    def measure(self, tag: str, width: str, on: str = "today") -> None:
        """A disc width was measured."""
        width_mm = parse_length_mm(width)
        self.do(measure, tag=tag, width_mm=width_mm, on=self.day(on), anyway=True, today=self.today)

    def feed(self, tag: str, food: str, on: str = "today", *, took: bool = True) -> None:
        """A food was offered."""
        self.do(feed, tag=tag, food=food, took=took, on=self.day(on), today=self.today)

    def hold(self, tag: str, why: str = "a sore", on: str = "today") -> None:
        """A health hold began."""
        self.do(hold, tag=tag, why=why, on=self.day(on), today=self.today)

    def move(self, *tags: str, tank: str, on: str = "today", anyway: bool = False) -> None:
        """Animals were moved together."""
        self.do(move, tags=tags, tank=tank, on=self.day(on), anyway=anyway, today=self.today)

    def rows(self, sql: str, *values: object) -> list[tuple[Any, ...]]:
        """What stands in the database, looked at past the program: days as text, yes as 1."""
        with self.book.engine.connect() as database:
            found = database.exec_driver_sql(self._sql(sql), values)
            return [tuple(map(_plain, row)) for row in found]

    def write(self, sql: str, *values: object) -> None:
        """Change the database past the program, its rules enforced; its driver's error is raised."""
        try:
            with self.book.engine.begin() as database:
                database.exec_driver_sql(self._sql(sql), values)
        except DBAPIError as refused:
            raise (refused.orig or refused) from None

    def written(self) -> list[list[tuple[Any, ...]]]:
        """Every row of every table, to see that nothing was written."""
        with self.book.engine.connect() as database:
            tables = sorted(inspect(database).get_table_names())
        return [sorted(self.rows(f"SELECT * FROM {name}"), key=repr) for name in tables]  # noqa: S608 - names of tables

    def _sql(self, sql: str) -> str:
        """SQL with the mark for a value that the database's driver takes."""
        return sql if self.book.engine.dialect.name == "sqlite" else sql.replace("?", "%s")

    def _facts(self, **facts: Any) -> AnimalFacts:  # noqa: ANN401 - facts of an animal
        for day in {"arrived", "mature_since"} & facts.keys():
            facts[day] = self.day(facts[day])
        if "born" in facts:
            facts["born"] = parse_day_as_known(facts["born"], self.today)
        sires = facts.pop("sires", ())
        texts = [sires] if isinstance(sires, str) else sires
        return AnimalFacts(**facts, sires=parse_sires(texts))


def _plain(value: Any) -> Any:  # noqa: ANN401 - whatever a column holds
    if isinstance(value, date):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value
