"""Let several processes write in one book at once, and count what was lost, locked and told.

Run by hand for the full figures: python tests/safety/writers_drill.py LOCATION WRITERS ACTS
"""

import json
import os
import sys
import time
from dataclasses import asdict, dataclass
from datetime import date, timedelta

from sqlmodel import select

from colony.acts.animals.animals import add_animal, edit_animal
from colony.acts.pups.measure import measure
from colony.notation.fields.facts import AnimalFacts
from colony.records import Animal, Measurement
from colony.refusals.base import Refusal
from colony.refusals.history import ChangedMeanwhile
from colony.store.book import Book, open_book
from colony.store.journal.entries import latest, read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows

TODAY = date(2026, 3, 9)
SHARED = "Alma"


@dataclass
class Figures:
    """What a drill counted."""

    writers: int
    acts_each: int
    acts_lost: int = 0
    updates_lost: int = 0
    refused_otherwise: int = 0
    conflicts_told: int = 0
    rows_otherwise: int = 0
    seconds: float = 0


def drill(location: str, writers: int, acts: int) -> Figures:
    """Each writer measures an animal of its own, and counts up a note of the shared one."""
    figures = Figures(writers, acts)
    _begin(location, writers)
    began = time.monotonic()
    pipes = [_start(location, writer, acts) for writer in range(writers)]
    for pipe in pipes:
        with os.fdopen(pipe) as lines:
            conflicts, refused = map(int, lines.read().split())
        figures.conflicts_told += conflicts
        figures.refused_otherwise += refused
    for _ in range(writers):
        os.wait()
    figures.seconds = round(time.monotonic() - began, 1)
    _look(location, figures)
    return figures


def _begin(location: str, writers: int) -> None:
    book = open_book(location, begin=True)
    for tag in (SHARED, *(f"W{writer}" for writer in range(writers))):
        with book.act("animal add") as session:
            add_animal(session, tag=tag, facts=AnimalFacts(sex="F", note="0"), today=TODAY)
    book.close()


def _start(location: str, writer: int, acts: int) -> int:
    hears, says = os.pipe()
    if os.fork() == 0:
        os.close(hears)
        conflicts = refused = 0
        book = open_book(location)
        for number in range(acts):
            try:
                if number % 2:
                    conflicts += _count_up(book)
                else:
                    _measure(book, f"W{writer}", number)
            except Refusal as refusal:
                sys.stderr.write(f"{refusal.sentence}\n")
                refused += 1
        os.write(says, f"{conflicts} {refused}".encode())
        os._exit(0)
    os.close(says)
    return hears


def _measure(book: Book, tag: str, number: int) -> None:
    with book.act("pup measure") as session:
        on = TODAY - timedelta(days=number)
        measure(session, tag=tag, width_mm=300, on=on, today=TODAY)


def _count_up(book: Book) -> int:
    """Look, think, write: as a person at a form does; the conflicts that were told on the way."""
    conflicts = 0
    while True:
        with book.reading() as session:
            mark = latest(session)
            note = session.exec(select(Animal.note).where(Animal.tag == SHARED)).one()
        time.sleep(0.0005)
        # Two who counted to the same number wrote different notes: neither passes for the other.
        facts = AnimalFacts(note=f"{int(str(note).split()[0]) + 1} {os.getpid()}")
        try:
            with book.act("animal edit", seen=mark) as session:
                edit_animal(session, tag=SHARED, facts=facts, today=TODAY)
        except ChangedMeanwhile:
            conflicts += 1
        else:
            return conflicts


def _look(location: str, figures: Figures) -> None:
    book = open_book(location)
    with book.reading() as session:
        widths = len(session.exec(select(Measurement.id)).all())
        note = session.exec(select(Animal.note).where(Animal.tag == SHARED)).one()
        recorded = recorded_rows(read_entries(session))
        figures.rows_otherwise = len(differences(recorded, kept_rows(session.connection())))
    book.close()
    updates = figures.writers * (figures.acts_each // 2)
    figures.acts_lost = figures.writers * figures.acts_each - updates - widths
    figures.updates_lost = updates - int(str(note).split()[0])


if __name__ == "__main__":
    where, how_many, acts_each = sys.argv[1:4]
    figures = drill(where, int(how_many), int(acts_each))
    sys.stdout.write(json.dumps(asdict(figures)) + "\n")
