"""The tests stand as the package does: who finds a file finds its tests."""

from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
from checkout import ROOT

TESTS, PACKAGE = ROOT / "tests", ROOT / "colony"

OWN = {"support", "benchmarks", "docs", "safety", "fixtures", "screens/snapshots"}
"""Folders of the tests alone: what helps them, what is measured, what crosses all floors."""

COMPUTING = ("pedigree", "notation", "exchange/text", "papers")
"""Where each module has a test file of its name; planning holds to it by its own tests."""

TESTED_BY = {
    "notation/cautions.py": "only sentences",
    "notation/orders.py": "only words",
    "notation/fields": "what comes of a field is tested where it comes out",
}
"""Modules without a test file of their name, and where their promises are kept."""


def folders(root: Path) -> Iterator[str]:
    """Each folder below one that holds files of Python or snapshots, by its path from there."""
    for folder in sorted(root.rglob("*")):
        if folder.is_dir() and "__pycache__" not in folder.parts and any(folder.glob("*.*")):
            yield folder.relative_to(root).as_posix()


def without_test(module: str) -> bool:
    """Whether a module has no test file of its name, with or without its folder's before it."""
    path = Path(module)
    beside = TESTS / path.parent
    names = (path.stem, f"{path.parent.name}_{path.stem}")
    return not any((beside / f"test_{name}.py").is_file() for name in names)


@pytest.mark.parametrize("folder", list(folders(TESTS)))
def test_each_folder_of_tests_is_a_folder_of_the_package(folder: str) -> None:
    """But for those that are about no part of it."""
    own = any(folder == name or folder.startswith(f"{name}/") for name in OWN)
    assert own or (PACKAGE / folder).is_dir()


def test_each_module_that_computes_has_a_test_file_of_its_name() -> None:
    """Or says where its promises are kept instead."""
    modules = [
        path.relative_to(PACKAGE).as_posix()
        for floor in COMPUTING
        for path in sorted((PACKAGE / floor).rglob("*.py"))
        if path.name != "__init__.py"
    ]
    told = tuple(f"{name}/" for name in TESTED_BY)
    alone = [name for name in modules if name not in TESTED_BY and not name.startswith(told)]
    assert [name for name in alone if without_test(name)] == []
    assert all((PACKAGE / name).exists() for name in TESTED_BY if name != "notation/fields")


def test_no_two_test_files_have_one_name() -> None:
    """Pytest and mypy know a file by its name alone."""
    names = Counter(path.name for path in TESTS.rglob("*.py") if path.name != "conftest.py")
    assert [name for name, count in names.items() if count > 1] == []
