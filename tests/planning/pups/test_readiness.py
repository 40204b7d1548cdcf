"""When a pup is ready, gate by gate."""

from dataclasses import replace
from datetime import date, timedelta

from colony.planning.pups.feeding import FoodOffered
from colony.planning.pups.growth import GrowthPrior, Width
from colony.planning.pups.readiness import (
    GATES,
    PupFacts,
    ReadyRules,
    by_date,
    grouped,
    readiness,
    ready_by_week,
)

TODAY = date(2024, 6, 1)


RULES = ReadyRules()


def ago(days: int) -> date:
    """Count days back from today."""
    return TODAY - timedelta(days=days)


READY = PupFacts(
    "p1",
    "Potamotrygon leopoldi",
    "F",
    born=ago(60),
    widths=(Width(ago(3), 125),),
    feedings=(FoodOffered(ago(20), "shrimp", True), FoodOffered(ago(15), "smelt", True)),
    prior=GrowthPrior(763, 0.5),
)


def test_a_pup_that_passes_every_gate_is_ready_today() -> None:
    """All gates open: ready, and the expected date is today."""
    found = readiness(READY, RULES, TODAY)
    assert found.ready
    assert list(found.gates) == [gate.name for gate in GATES]
    assert (found.ready_low, found.expected_ready, found.ready_high) == (TODAY, TODAY, TODAY)
    assert (found.age_days, found.disc_width_mm) == (60, 125)


def test_the_ready_come_first_then_by_date_and_groups_keep_the_order() -> None:
    """Sorted by expected date, the undated last; groups by litter keep that order."""
    pups = [
        replace(READY, tag="late", born=ago(10), litter="L1"),
        replace(READY, tag="never", held_back=True, litter="L1"),
        replace(READY, tag="now", litter="L2"),
        replace(READY, tag="soon", born=ago(35), litter="L1"),
    ]
    found = [readiness(pup, RULES, TODAY) for pup in pups]
    assert [pup.tag for pup in by_date(found)] == ["now", "soon", "late", "never"]
    by_litter = {k: [p.tag for p in v] for k, v in grouped(found, "litter").items()}
    assert by_litter == {"L2": ["now"], "L1": ["soon", "late", "never"]}


def test_every_dated_pup_is_counted_in_its_week() -> None:
    """Twelve weeks by species and sex: the ready ones in the first, the undated in none."""
    born = {"a": ago(60), "b": ago(42 - 6), "c": ago(42 - 7), "d": ago(42 - 84)}
    pups = [replace(READY, tag=t, born=b, sex="M" if t == "c" else "F") for t, b in born.items()]
    found = [readiness(p, RULES, TODAY) for p in [*pups, replace(READY, reserved=True)]]
    weeks = ready_by_week(found, TODAY)
    assert [week.total for week in weeks] == [2, 1, *[0] * 10]
    assert weeks[0].counts == {(READY.species, "F"): 2}
    assert weeks[1].counts == {(READY.species, "M"): 1}
