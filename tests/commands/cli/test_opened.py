"""A path that no system can have is refused like one that is not there."""

import pytest

from colony.commands.cli.failures import run


def test_a_book_path_with_a_null_byte_is_refused_in_a_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """No shell passes one, but a program that calls this one may."""
    assert run(["--book", "farm\0.colony", "animal", "list"]) == 1
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    assert "There is no book at" in told.err
