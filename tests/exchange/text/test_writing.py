"""Files are whole or not there."""

from pathlib import Path

import pytest

from colony.exchange.text import writing
from colony.exchange.text.writing import write_file, write_files
from colony.refusals.exchange import CannotWrite, NotAnExport, WouldOverwrite

FILES = {"sign.toml": "a", "b.csv": "b"}


def content_of(folder: Path) -> dict[str, str]:
    """Every file of a folder, hidden ones too."""
    return {path.name: path.read_text("utf-8") for path in folder.iterdir()}


def test_a_new_and_an_empty_folder_get_all_files(tmp_path: Path) -> None:
    """And nothing else: no part is left behind."""
    (tmp_path / "empty").mkdir()
    for name in ("new", "empty", "deep/er"):
        write_files(tmp_path / name, FILES, sign="sign.toml", overwrite=False)
        assert content_of(tmp_path / name) == FILES


def test_a_folder_of_others_is_left_alone_and_one_of_its_kind_asks(tmp_path: Path) -> None:
    """Strewn among other files nobody would find it again."""
    (tmp_path / "mine.txt").write_text("kept", "utf-8")
    with pytest.raises(NotAnExport):
        write_files(tmp_path, FILES, sign="sign.toml", overwrite=True)
    assert content_of(tmp_path) == {"mine.txt": "kept"}
    (tmp_path / "sign.toml").write_text("old", "utf-8")
    with pytest.raises(WouldOverwrite):
        write_files(tmp_path, FILES, sign="sign.toml", overwrite=False)
    write_files(tmp_path, FILES, sign="sign.toml", overwrite=True)
    assert content_of(tmp_path) == {"mine.txt": "kept", **FILES}


def test_a_disk_that_is_full_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second file cannot be written: neither is replaced, and no part stays."""
    write_files(tmp_path / "out", FILES, sign="sign.toml", overwrite=False)
    write = writing._write
    done: list[Path] = []

    def full(path: Path, content: str | bytes) -> None:
        if done:
            raise OSError(28, "No space left on device")
        done.append(path)
        write(path, content)

    monkeypatch.setattr(writing, "_write", full)
    with pytest.raises(CannotWrite, match="No space left"):
        write_files(tmp_path / "out", dict.fromkeys(FILES, "new"), sign="sign.toml", overwrite=True)
    assert content_of(tmp_path / "out") == FILES
    done[:] = []
    with pytest.raises(CannotWrite):
        write_files(tmp_path / "other", FILES, sign="sign.toml", overwrite=False)
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_one_file_is_replaced_only_when_that_is_meant(tmp_path: Path) -> None:
    """A folder is never replaced; bytes are written as they are."""
    path = tmp_path / "chart.svg"
    write_file(path, "first", overwrite=False)
    with pytest.raises(WouldOverwrite):
        write_file(path, "second", overwrite=False)
    write_file(path, b"\xff\r\n", overwrite=True)
    assert path.read_bytes() == b"\xff\r\n"
    with pytest.raises(WouldOverwrite):
        write_file(tmp_path, "third", overwrite=True)
