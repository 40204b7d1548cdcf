"""Kill a writing process again and again, and look after each kill whether an act was lost or halved.

Run by hand for the full figures: python tests/safety/crash_drill.py LOCATION KILLS ACTS
"""

import json
import os
import random
import signal
import sys
import time
from collections import Counter
from dataclasses import asdict, dataclass
from datetime import date
from typing import NoReturn

from colony.acts.animals.animals import add_animal
from colony.acts.pups.measure import feed
from colony.notation.fields.facts import AnimalFacts
from colony.store.book import open_book
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows

TODAY = date(2026, 3, 9)
ANIMALS = ("Alma", "Bruno", "Caro")
LONGEST_LIFE_S = 0.2
"""At least so long a life may last; on a busy machine as long as a few acts take there."""


@dataclass
class Figures:
    """What a drill counted."""

    kills: int = 0
    kills_while_writing: int = 0
    acts_reported: int = 0
    acts_lost: int = 0
    acts_done_unreported: int = 0
    acts_halved: int = 0
    rows_otherwise: int = 0


def drill(location: str, kills: int, acts: int, seed: int = 1) -> Figures:
    """Kill at random moments until both numbers are reached."""
    chance, figures = random.Random(seed), Figures()  # noqa: S311 - moments, no secrets
    longest_life_s = max(LONGEST_LIFE_S, 6 * _begin(location))
    while figures.kills < kills or figures.acts_reported < acts:
        reported = _one_life(location, figures.kills, chance.uniform(0, longest_life_s))
        figures.kills += 1
        figures.kills_while_writing += bool(reported)
        _look(location, figures, reported)
    return figures


def _begin(location: str) -> float:
    """Begin the book, and return the seconds that opening it and one act take on this machine."""
    open_book(location, begin=True).close()
    began = time.monotonic()
    book = open_book(location)
    with book.act("begin") as session:
        for tag in ANIMALS:
            add_animal(session, tag=tag, facts=AnimalFacts(), today=TODAY)
    book.close()
    return time.monotonic() - began


def _one_life(location: str, life: int, seconds: float) -> set[str]:
    """Let a process write until it is killed; the acts that it reported done."""
    hears, says = os.pipe()
    child = os.fork()
    if child == 0:
        _write_until_killed(location, life, says)
    os.close(says)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(hears) as pipe:
        return set(pipe.read().split())


def _write_until_killed(location: str, life: int, says: int) -> NoReturn:
    book, number, drill_process = open_book(location), 0, os.getppid()
    # A drill that is stopped itself leaves nobody behind who writes for ever.
    while os.getppid() == drill_process:
        name = f"{life}.{number}"
        with book.act(name) as session:
            for tag in ANIMALS:
                feed(session, tag=tag, food=name, took=True, on=TODAY, today=TODAY)
        os.write(says, f"{name}\n".encode())
        number += 1
    os._exit(1)


def _look(location: str, figures: Figures, reported: set[str]) -> None:
    book = open_book(location)
    with book.reading() as session:
        entries = list(read_entries(session))
        kept = kept_rows(session.connection())
        figures.rows_otherwise += len(differences(recorded_rows(entries), kept))
    book.close()
    done = {entry.act for entry in entries[2:] if entry.act.startswith(f"{figures.kills - 1}.")}
    figures.acts_reported += len(reported)
    figures.acts_lost += len(reported - done)
    figures.acts_done_unreported += len(done - reported)
    fed = Counter(row["food"] for (table, _), row in kept.items() if table == "feeding")
    figures.acts_halved += sum(count != len(ANIMALS) for count in fed.values())


if __name__ == "__main__":
    where, most_kills, least_acts = sys.argv[1:4]
    sys.stdout.write(json.dumps(asdict(drill(where, int(most_kills), int(least_acts)))) + "\n")
