"""The sample colony, made once and copied for each test."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from screens_house import TODAY, copy_of


@pytest.fixture(scope="session")
def sample(sample_of: Callable[[date], Path]) -> Path:
    """The sample colony of a fixed day; nobody writes in it."""
    return sample_of(TODAY)


@pytest.fixture
def farm(sample: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the sample colony to write in."""
    monkeypatch.setenv("COLONY_WHO", "keeper")
    return copy_of(sample, tmp_path)
