"""Put backups in place of a book while other processes write in it, and look for every act.

Run by hand for the full figures: python tests/safety/restore_drill.py LOCATION WRITERS RESTORES FOLDER
"""

import json
import os
import signal
import subprocess
import sys
import time
from dataclasses import asdict, dataclass
from datetime import date
from pathlib import Path
from typing import NoReturn

from colony.acts.animals.animals import add_animal
from colony.acts.book.backups import back_up
from colony.acts.pups.measure import feed
from colony.notation.fields.facts import AnimalFacts
from colony.refusals.base import Refusal
from colony.store.book import Book, open_book
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows

TODAY = date(2026, 3, 9)
ANIMALS = ("Alma", "Bruno", "Caro")
BETWEEN_S = 0.3
REST_S = 0.005
"""A breath between two acts of a writer: without it a restore waits long for its turn."""


@dataclass
class Figures:
    """What a drill counted."""

    restores: int = 0
    restores_failed: int = 0
    acts_reported: int = 0
    acts_kept: int = 0
    acts_lost: int = 0
    acts_refused: int = 0
    rows_otherwise: int = 0


def drill(location: str, writers: int, restores: int, folder: Path) -> Figures:
    """Let the writers write all the while, and restore now and then with the real program."""
    figures, copy = Figures(), folder / "first.colony"
    _begin(location, copy)
    children = [_start(location, writer, folder) for writer in range(writers)]
    kept = []
    for _ in range(restores):
        time.sleep(BETWEEN_S)
        kept += _restore(location, copy, figures)
    time.sleep(BETWEEN_S)
    for child, _ in children:
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
    lines = [line for _, file in children for line in file.read_text().split()]
    reported = [line for line in lines if line != "refused"]
    found = [_acts(where, figures) for where in (*kept, location)]
    figures.acts_reported = len(reported)
    figures.acts_refused = lines.count("refused")
    figures.acts_kept = len(set().union(*found[:-1]) & set(reported))
    figures.acts_lost = len(set(reported).difference(*found))
    return figures


def _begin(location: str, copy: Path) -> None:
    book = open_book(location, begin=True)
    with book.act("begin") as session:
        for tag in ANIMALS:
            add_animal(session, tag=tag, facts=AnimalFacts(), today=TODAY)
    back_up(book, to=copy)
    book.close()


def _start(location: str, writer: int, folder: Path) -> tuple[int, Path]:
    reports = folder / f"{writer}.txt"
    reports.touch()
    child = os.fork()
    if child == 0:
        _write_until_killed(open_book(location), writer, reports)
    return child, reports


def _write_until_killed(book: Book, writer: int, reports: Path) -> NoReturn:
    number, drill_process = 0, os.getppid()
    with reports.open("w", buffering=1) as file:
        # A drill that is stopped itself leaves nobody behind who writes for ever.
        while os.getppid() == drill_process:
            name = f"{writer}.{number}"
            try:
                with book.act(name) as session:
                    for tag in ANIMALS:
                        feed(session, tag=tag, food=name, took=True, on=TODAY, today=TODAY)
            except Refusal:
                name = "refused"
            file.write(f"{name}\n")
            number += 1
            time.sleep(REST_S)
    os._exit(1)


def _restore(location: str, copy: Path, figures: Figures) -> list[str]:
    words = ["--book", location, "book", "restore", str(copy), "--yes", "--json"]
    done = subprocess.run(
        [sys.executable, "-m", "colony", *words], check=False, stdout=subprocess.PIPE, text=True
    )
    figures.restores += 1
    if done.returncode:
        figures.restores_failed += 1
        return []
    return [json.loads(done.stdout)["kept"]]


def _acts(location: str, figures: Figures) -> set[str]:
    book = open_book(location)
    with book.reading() as session:
        entries = list(read_entries(session))
        figures.rows_otherwise += len(
            differences(recorded_rows(entries), kept_rows(session.connection()))
        )
    book.close()
    return {entry.act for entry in entries}


if __name__ == "__main__":
    where, how_many, how_often, into = sys.argv[1:5]
    figures = drill(where, int(how_many), int(how_often), Path(into))
    sys.stdout.write(json.dumps(asdict(figures)) + "\n")
