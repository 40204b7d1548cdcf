"""Kill each writing command at each of its write calls, and look after each kill what is in the book.

Run by hand for the whole matrix: python tests/safety/kill_matrix.py FOLDER EVERY
where EVERY is 1 for each call, 10 for each tenth. It takes strace, which counts and kills.
"""

import json
import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import closing
from dataclasses import asdict, dataclass, field
from datetime import date
from pathlib import Path

from colony.acts.book.check import check_book
from colony.acts.book.sample import make_sample_book
from colony.refusals.base import Refusal
from colony.store.book import open_book
from colony.store.journal.chain import journal_is_whole
from colony.store.journal.entries import read_entries
from colony.store.journal.replay import differences, kept_rows, recorded_rows

CALLS = ("pwrite64", "write", "fsync", "fdatasync", "ftruncate", "rename", "unlink", "chmod")
"""The calls by which a program changes files ("Linux Programmer's Manual", section 2)."""

COMMANDS: tuple[tuple[str, ...], ...] = (
    ("litter", "record", "--dam", "Alma", "--sire", "Bruno", "--pups", "2F2M", "--anyway", "--why",
     "seen"),
    ("animal", "add", "Zora", "--species", "leopoldi", "--sex", "F"),
    ("animal", "edit", "Alma", "--note", "calm"),
    ("animal", "hold", "Alma", "--why", "thin"),
    ("animal", "end", "Bruno", "died", "--why", "old"),
    ("pup", "measure", "Alma", "60cm", "--anyway"),
    ("pup", "feed", "Alma", "smelt"),
    ("pairing", "sign", "Alma", "bite marks"),
    ("pairing", "check", "Alma", "--found", "pregnant"),
    ("pairing", "plan", "--accept"),
    ("tank", "move", "Alma", "N2", "--anyway", "--why", "room"),
    ("tank", "add", "Q9", "--system", "north", "--role", "nursery", "--length", "90cm", "--width",
     "60cm"),
    ("round", "done", "clean-up", "N1"),
    ("round", "count", "N1", "4"),
    ("round", "task", "gill check"),
    ("food", "give", "N1", "smelt", "20g"),
    ("water", "test", "south", "nitrite=0.05"),
    ("water", "changed", "south", "100L"),
    ("health", "look", "Alma", "--sign", "thin"),
    ("species", "set", "leopoldi", "mature_width_female_mm", "400", "--source", "own"),
    ("animal", "release", "Gala"),
    ("pairing", "start", "Dunja", "Timo", "--anyway", "--why", "seen"),
    ("pairing", "end", "Birke"),
    ("litter", "edit", "L60", "--note", "calm"),
    ("tank", "system", "annex"),
    ("tank", "plan", "--accept"),
    ("round", "skip", "clean-up", "N1", "--why", "no time"),
    ("round", "rhythm", "clean-up", "--every", "7"),
    ("round", "order", "N1", "N2"),
    ("round", "answer", "nursery", "water changed"),
    ("food", "add", "krill"),
    ("food", "batch", "smelt", "K-1", "--expires", "in 60d"),
    ("water", "limit", "nitrite", "--high", "0.2", "--source", "own"),
    ("water", "regime", "south", "--percent", "20", "--every", "7"),
    ("water", "reserve", "--volume", "5000L"),
    ("health", "vet", "Dr Vera", "--animal", "Alma", "--why", "check"),
    ("species", "add", "castexi", "--scientific", "Potamotrygon castexi"),
    ("book", "settings", "length_unit", "mm"),
    ("book", "import", "SHEET"),
    ("book", "export", "OUT"),
    ("book", "copy", "BOOK", "COPY"),
    ("book", "rebuild", "COPY"),
    ("book", "undo", "--yes"),
    ("book", "backup"),
    ("book", "restore", "newest", "--yes"),
)  # fmt: skip
"""Writing commands that the sample takes; the last ones are of the book itself."""


_OF_COPIES = ("backup", "restore", "export", "copy", "rebuild")
"""What is answered without an act of this book."""


@dataclass
class Figures:
    """What the matrix counted."""

    commands: int = 0
    calls_counted: int = 0
    kills: int = 0
    written_when_killed: int = 0
    answered_and_lost: int = 0
    halved: int = 0
    wrong: int = 0
    not_a_book: int = 0
    refused: list[str] = field(default_factory=list)


def drill(folder: Path, every: int, commands: Sequence[tuple[str, ...]] = COMMANDS) -> Figures:
    """Kill every command at every so many of its write calls."""
    figures = Figures()
    first = folder / "first" / "house.colony"
    first.parent.mkdir(parents=True)
    make_sample_book(location=str(first), today=date.today())  # noqa: DTZ011 - as the commands do
    first.with_name("sheet.csv").write_text("tag,species,sex\nZara,motoro,F\nZeno2,motoro,M\n")
    _run(first, ("book", "backup"))
    _run(first, ("animal", "edit", "Bruno", "--note", "calm"))  # the copy of the day is made
    for command in commands:
        figures.commands += 1
        counts = _count(first, command, folder / "count", figures)
        figures.calls_counted += sum(counts.values())
        for call, number in _sampled(counts, every):
            book = _fresh(first, folder / "kill")
            figures.kills += 1
            _look(book, _acts(book), _killed_at(book, command, call, number), figures)
    return figures


def _sampled(counts: Counter[str], every: int) -> Iterator[tuple[str, int]]:
    at = 0
    for call in CALLS:
        for number in range(1, counts[call] + 1):
            if at % every == 0:
                yield call, number
            at += 1


def _count(first: Path, command: tuple[str, ...], folder: Path, figures: Figures) -> Counter[str]:
    book, log = _fresh(first, folder), folder / "calls.txt"
    done = _run(book, command, ("-o", str(log), "-e", f"trace={','.join(CALLS)}"))
    if done.returncode != 0:
        figures.refused.append(f"{' '.join(command)}: {done.stderr.strip()}")
    names = re.findall(r"^(?:\d+ +)?(\w+)\(", log.read_text(), re.MULTILINE)
    return Counter(name for name in names if name in CALLS)


def _killed_at(book: Path, command: tuple[str, ...], call: str, number: int) -> bool:
    """Kill a command at one of its calls; whether it had answered that its act is written."""
    inject = f"inject={call}:signal=SIGKILL:when={number}"
    done = _run(book, command, ("-o", "/dev/null", "-e", f"trace={call}", "-e", inject))
    return bool(done.stdout.strip()) and command[1] not in _OF_COPIES


def _look(book: Path, before: int, answered: bool, figures: Figures) -> None:
    figures.not_a_book += sum(
        not _is_whole(file) for file in book.parent.glob("*.colony") if file != book
    )
    with closing(open_book(str(book))) as found, found.reading() as session:
        entries = list(read_entries(session))
        rows = kept_rows(session.connection())
        figures.halved += bool(differences(recorded_rows(entries), rows))
        figures.halved += journal_is_whole(session.connection()) is not None
        today = date.today()  # noqa: DTZ011 - as the commands do
        figures.wrong += any(f.level == "wrong" for f in check_book(session, today=today))
        figures.written_when_killed += len(entries) != before
        figures.answered_and_lost += answered and len(entries) == before


def _is_whole(file: Path) -> bool:
    """Whether what has the name of a book is one, and tells what it holds."""
    try:
        with closing(open_book(str(file))) as found, found.reading() as session:
            rows = kept_rows(session.connection())
            return not differences(recorded_rows(read_entries(session)), rows)
    except Refusal:
        return False


def _acts(book: Path) -> int:
    with closing(open_book(str(book))) as found, found.reading() as session:
        return sum(1 for _ in read_entries(session))


def _fresh(first: Path, folder: Path) -> Path:
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(first.parent, folder)
    return folder / first.name


def _run(
    book: Path, command: tuple[str, ...], traced: Sequence[str] = ()
) -> subprocess.CompletedProcess[str]:
    places = {
        "BOOK": str(book),
        "COPY": str(book.with_name("copy.colony")),
        "OUT": str(book.with_name("out")),
        "SHEET": str(book.with_name("sheet.csv")),
    }
    command = tuple(places.get(word, word) for word in command)
    strace = ["strace", "-f", "-qq", *traced] if traced else []
    return subprocess.run(
        [*strace, sys.executable, "-m", "colony", *command],
        capture_output=True,
        text=True,
        check=False,
        stdin=subprocess.DEVNULL,
        env={**os.environ, "COLONY_BOOK": str(book), "COLONY_WHO": "a drill"},
        timeout=300,
    )


if __name__ == "__main__":
    where, each = sys.argv[1:3]
    sys.stdout.write(json.dumps(asdict(drill(Path(where), int(each))), indent=1) + "\n")
