"""What a plain listing loads of the planning models."""

import subprocess
import sys

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
        "pups.readiness",
        "tanks.limits",
    ],
)
def test_the_models_of_a_listing_load_nothing_but_the_standard_library(module: str) -> None:
    """Due dates, first forecasts, gates and limits come without arrays or solvers."""
    assert loaded(f"colony.planning.{module}") == set()


@pytest.mark.parametrize("module", ["pups.growth_check", "tanks.outlook"])
def test_the_fit_and_the_outlook_load_no_solver(module: str) -> None:
    """Arrays are enough for them; only the plan of moves loads scipy."""
    assert loaded(f"colony.planning.{module}") <= {"numpy"}
