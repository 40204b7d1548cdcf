"""What a plain listing loads of the planning models, and how the subjects of planning meet."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {"numpy", "scipy", "networkx", "sqlmodel", "rich", "typer"}


def loaded(module: str) -> set[str]:
    """Import a module in a fresh process and tell which heavy packages came with it."""
    code = f"import sys, {module}; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return HEAVY & {name.partition(".")[0] for name in done.stdout.split()}


@pytest.mark.parametrize(
    "module",
    [
        "litters.gestation",
        "litters.judgement",
        "litters.nurseries",
        "pups.growth",
        "pups.growth_law",
        "pups.growth_status",
        "pups.readiness",
        "tanks.limits",
        "tanks.overflow",
    ],
)
def test_the_models_of_a_listing_load_nothing_but_the_standard_library(module: str) -> None:
    """Due dates, first forecasts, gates and limits come without arrays or solvers."""
    assert loaded(f"colony.planning.{module}") == set()


@pytest.mark.parametrize("module", ["pups.growth_check", "tanks.outlook"])
def test_the_fit_and_the_outlook_load_no_solver(module: str) -> None:
    """Arrays are enough for them; only the plan of moves loads scipy."""
    assert loaded(f"colony.planning.{module}") <= {"numpy"}


PLANNING = Path(__file__).parents[2] / "colony" / "planning"

DOORS = {
    "pairings": {"eligibility"},
    "tanks": {"load"},
    "solver": {"flow", "highs", "model", "solution"},
    "pups": {"feeding", "growth", "growth_law", "readiness"},
}
"""The modules of a subject that other subjects of planning may import."""

MOST_ARROWS = 26


def imported(path: Path) -> set[tuple[str, ...]]:
    """The modules of planning that a file imports, each as (subject, module ...)."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            names |= {node.module} | {f"{node.module}.{name.name}" for name in node.names}
        elif isinstance(node, ast.Import):
            names |= {name.name for name in node.names}
    parts = [tuple(name.split(".")) for name in names]
    return {part[2:] for part in parts if part[:2] == ("colony", "planning") and is_module(part)}


def is_module(parts: tuple[str, ...]) -> bool:
    """Whether there is a file of this name."""
    return PLANNING.parents[1].joinpath(*parts).with_suffix(".py").is_file()


def arrows() -> set[tuple[tuple[str, ...], tuple[str, ...]]]:
    """Every import of one subject's module by another's; the kinds of arrays are no subject."""
    found = set()
    for path in PLANNING.rglob("*.py"):
        own = path.relative_to(PLANNING).with_suffix("").parts
        found |= {(own, other) for other in imported(path) if other[0] not in {own[0], "arrays"}}
    return found


def test_subjects_of_planning_meet_at_few_doors() -> None:
    """Few imports go from a subject to another, all to the modules named as doors."""
    found = arrows()
    assert 0 < len(found) < MOST_ARROWS
    assert {(subject, *module) for _, (subject, *module) in found} <= {
        (subject, module) for subject, modules in DOORS.items() for module in modules
    }


WITHOUT_WORK = {"arrays", "pairings.plan", "solver.solution"}
"""Modules that only say what values look like."""


def test_every_module_of_planning_has_a_test_file_of_its_name() -> None:
    """It is named for the module, with the subject before it where that alone is not unique."""
    files = {path.stem for path in Path(__file__).parent.rglob("test_*.py")}
    for path in PLANNING.rglob("*.py"):
        parts = path.relative_to(PLANNING).with_suffix("").parts
        if path.stem != "__init__" and ".".join(parts) not in WITHOUT_WORK:
            names = {f"test_{path.stem}", f"test_{parts[0]}_{path.stem}"}
            assert names & files, ".".join(parts)
