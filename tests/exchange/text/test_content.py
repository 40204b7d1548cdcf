"""Only a plain file of a size that a colony can have is read."""

import os
import sys
from pathlib import Path

import pytest

from colony.exchange.text import content
from colony.exchange.text.content import read_content
from colony.refusals.exchange import FileNotReadable, FileTooLarge, NoSuchFile, NotAColonyFolder


def test_a_file_is_read_byte_by_byte(tmp_path: Path) -> None:
    """Line ends, zeros and marks as they are."""
    path = tmp_path / "a.csv"
    path.write_bytes(bytes(range(256)) + b"\r\n")
    assert read_content(path) == bytes(range(256)) + b"\r\n"


def test_a_missing_file_and_a_folder_are_told_apart(tmp_path: Path) -> None:
    """Each has its own sentence."""
    with pytest.raises(NoSuchFile):
        read_content(tmp_path / "none.csv")
    with pytest.raises(NotAColonyFolder):
        read_content(tmp_path)


@pytest.mark.skipif(sys.platform == "win32", reason="there are no named pipes")
def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    """It has no end: reading it would hang."""
    os.mkfifo(tmp_path / "pipe.csv")
    with pytest.raises(FileNotReadable, match="no plain file"):
        read_content(tmp_path / "pipe.csv")


def test_a_file_beyond_the_limit_is_refused_unread(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """At the limit it is read, a byte beyond it is not."""
    monkeypatch.setattr(content, "MOST_MEGABYTES", 1)
    path = tmp_path / "large.csv"
    path.write_bytes(b"x" * 2**20)
    assert len(read_content(path)) == 2**20
    path.write_bytes(b"x" * (2**20 + 1))
    with pytest.raises(FileTooLarge):
        read_content(path)


def test_a_path_that_no_system_can_have_is_refused() -> None:
    """A zero in a name, or a name that is too long."""
    for name in ("a\0b", "x" * 5000):
        with pytest.raises((FileNotReadable, NoSuchFile)):
            read_content(Path(name))
