"""A full disk and a broken one at each of our own file operations in turn: refused, and nothing lost."""

import errno
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

import pytest
from safety_house import TODAY, furnished, rows_of

from colony.acts.book.backups import back_up, restore_backup
from colony.acts.book.export import export_book
from colony.refusals.base import Refusal
from colony.store.backups.transfer import copy_book, rebuild_book
from colony.store.book import Book, open_book

OPERATIONS = {"open", "os.rename", "os.mkdir", "os.remove", "os.chmod", "shutil.copyfile"}
"""What Python says of before it is done ("Audit events table", Python Library Reference)."""


FAULT = "a fault of the drill"


class Faults:
    """Fails at one of the operations on files of a folder; an audit hook cannot be taken away."""

    def __init__(self) -> None:
        self.folder = ""
        self.left = -1
        self.number = errno.EIO
        sys.addaudithook(self._hear)

    def _hear(self, event: str, facts: tuple[Any, ...]) -> None:
        if self.left < 0 or event not in OPERATIONS or not str(facts[0]).startswith(self.folder):
            return
        if event == "open" and "w" not in str(facts[1] or "") and "+" not in str(facts[1] or ""):
            return
        if self.left == 0:
            self.left = -1
            raise OSError(self.number, FAULT, facts[0])
        self.left -= 1

    @contextmanager
    def at(self, operation: int, number: int, folder: Path) -> Iterator[None]:
        """Fail once, at the operation of this number."""
        self.folder, self.left, self.number = str(folder), operation, number
        try:
            yield
        finally:
            self.left = -1


FAULTS = Faults()


def export_folder_of(book: Book, out: Path) -> None:
    """Export the whole book."""
    with book.reading() as session:
        export_book(session, path=out / "exported", overwrite=False, today=TODAY)


ACTS: dict[str, Callable[[Book, Path], object]] = {
    "backup": lambda book, _out: back_up(book),
    "backup to": lambda book, out: back_up(book, to=out / "copy.colony"),
    "restore": lambda book, _out: restore_backup(book.location, copy="newest"),
    "copy": lambda book, out: copy_book(book, str(out / "copy.colony")),
    "rebuild": lambda book, out: rebuild_book(book, str(out / "copy.colony")),
    "export": export_folder_of,
}


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO])
@pytest.mark.parametrize("name", ACTS)
def test_a_fault_at_any_operation_is_one_refusal(tmp_path: Path, name: str, number: int) -> None:
    """The book is as before; what was begun elsewhere has the name of no book."""
    book = open_book(str(tmp_path / "farm.colony"), begin=True)
    furnished(book)
    back_up(book)
    whole = rows_of(book)
    failed = 0
    for operation in range(60):
        out = tmp_path / f"out-{operation}"
        out.mkdir()
        done, reached = tried(ACTS[name], book, out, operation, number)
        failed += not done
        assert rows_of(book) == whole
        for made in out.glob("*.colony"):
            with closing(open_book(str(made))) as copied:
                assert rows_of(copied) == whole
        if not reached:
            break
    assert failed > 0
    assert operation < 59
    book.close()


def tried(
    act: Callable[[Book, Path], object], book: Book, out: Path, operation: int, number: int
) -> tuple[bool, bool]:
    """Whether an act was done, and whether it came as far as the operation that fails."""
    with FAULTS.at(operation, number, out.parent):
        try:
            act(book, out)
        except Refusal:
            return False, True
        except OSError as failed:
            if failed.strerror != FAULT:
                raise
            return False, True  # the face says it in a sentence
        return True, FAULTS.left < 0
