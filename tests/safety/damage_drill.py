"""Damage backups in many ways, restore each, and see that none that is not the backup is taken as good.

Run by hand for the full figures: python tests/safety/damage_drill.py FOLDER DAMAGED
"""

import json
import random
import shutil
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import asdict, dataclass
from pathlib import Path

from safety_house import furnished

from colony.acts.book.backups import back_up, restore_backup
from colony.refusals.base import Refusal
from colony.store.backups.manifest import manifest_path
from colony.store.backups.transfer import book_rows
from colony.store.book import open_book

PAGE = 4096


@dataclass
class Figures:
    """What a drill counted."""

    damaged: int = 0
    accepted_with_its_manifest: int = 0
    accepted_without: int = 0
    accepted_and_otherwise: int = 0
    """Restored as good although a row or an act is not as it was."""
    faults: int = 0
    """Neither restored nor refused in a sentence."""


def flip(content: bytearray, chance: random.Random) -> None:
    """Change up to eight bits, wherever they are."""
    for _ in range(chance.randint(1, 8)):
        content[chance.randrange(len(content))] ^= 1 << chance.randrange(8)


def scribble(content: bytearray, chance: random.Random) -> None:
    """Write letters over a piece of it."""
    at, length = chance.randrange(len(content)), chance.randint(1, 200)
    content[at : at + length] = bytes(
        chance.choices(b"abc 0123-", k=len(content[at : at + length]))
    )


def blank(content: bytearray, chance: random.Random) -> None:
    """Lose a page."""
    at = chance.randrange(len(content) // PAGE) * PAGE
    content[at : at + PAGE] = bytes(PAGE)


def cut(content: bytearray, chance: random.Random) -> None:
    """Lose its end."""
    del content[chance.randrange(len(content)) :]


def swap(content: bytearray, chance: random.Random) -> None:
    """Write two pages in each other's place."""
    one, other = (chance.randrange(len(content) // PAGE) * PAGE for _ in range(2))
    kept = content[one : one + PAGE]
    content[one : one + PAGE] = content[other : other + PAGE]
    content[other : other + PAGE] = kept


def edit_text(content: bytearray, chance: random.Random) -> None:
    """Change a name or a day that stands in it, to one as long."""
    name = chance.choice([b"Alma", b"Bruno", b"2026-", b"animal"])
    places = [at for at in range(len(content)) if content.startswith(name, at)]
    if places:
        at = chance.choice(places)
        content[at] = content[at] ^ 1


HARMS: tuple[Callable[[bytearray, random.Random], None], ...] = (
    flip,
    scribble,
    blank,
    cut,
    swap,
    edit_text,
)


def drill(folder: Path, damaged: int, seed: int = 1) -> Figures:
    """Damage a backup so many times; each is tried with its manifest, and without."""
    chance, figures = random.Random(seed), Figures()  # noqa: S311 - harms, no secrets
    book = open_book(str(folder / "farm.colony"), begin=True)
    furnished(book)
    good = Path(back_up(book, to=folder / "good.colony").path)
    whole = book_rows(book)
    book.close()
    content = good.read_bytes()
    while figures.damaged < damaged:
        harmed = bytearray(content)
        HARMS[figures.damaged % len(HARMS)](harmed, chance)
        if bytes(harmed) == content:
            continue
        figures.damaged += 1
        copy = folder / "harmed.colony"
        copy.write_bytes(harmed)
        shutil.copyfile(manifest_path(good), manifest_path(copy))
        figures.accepted_with_its_manifest += _is_taken(folder, copy, figures) is not None
        manifest_path(copy).unlink()
        taken = _is_taken(folder, copy, figures)
        if taken is not None:
            figures.accepted_without += 1
            figures.accepted_and_otherwise += _told(taken) != _told(whole)
    return figures


def _is_taken(folder: Path, copy: Path, figures: Figures) -> tuple[object, object] | None:
    """What the book holds after a restore; None where the backup was refused."""
    place = folder / "place"
    shutil.rmtree(place, ignore_errors=True)
    place.mkdir()
    try:
        restore_backup(str(place / "farm.colony"), copy=str(copy))
    except Refusal:
        return None
    except Exception:  # noqa: BLE001 - that is what is counted
        figures.faults += 1
        return None
    with closing(open_book(str(place / "farm.colony"))) as restored:
        return book_rows(restored)


def _told(held: tuple[object, object]) -> object:
    """The rows, and the acts but for that of the restore itself."""
    rows, own = held
    journal = next(entries for table, entries in own.items() if table.name == "journal")  # type: ignore[attr-defined] # by table
    return rows, [entry for entry in journal if entry["act"] != "book restore"]


if __name__ == "__main__":
    where, most = sys.argv[1:3]
    sys.stdout.write(json.dumps(asdict(drill(Path(where), int(most)))) + "\n")
