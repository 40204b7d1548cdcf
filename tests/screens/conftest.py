"""The sample colony, made once and copied for each test."""

from pathlib import Path

import pytest
from screens_house import TODAY, copy_of

from colony.acts.book.sample import make_sample_book


@pytest.fixture(scope="session")
def sample(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample colony of a fixed day; nobody writes in it."""
    path = tmp_path_factory.mktemp("sample") / "sample.colony"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("COLONY_WHO", "keeper")
        make_sample_book(location=str(path), today=TODAY)
    return path


@pytest.fixture
def farm(sample: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the sample colony to write in."""
    monkeypatch.setenv("COLONY_WHO", "keeper")
    return copy_of(sample, tmp_path)
