"""Two litters that want one nursery."""

from datetime import date, timedelta

from colony.planning.conception import Evidence, Sign
from colony.planning.gestation import GestationPrior, due_window
from colony.planning.nurseries import NurseryClaim, nursery_conflicts

MATED = date(2024, 3, 1)


def claim(dam: str, nursery: str, days: int) -> NurseryClaim:
    """Let a dam mated some days after the first want a nursery."""
    day = MATED + timedelta(days=days)
    seen = Evidence(dam, signs=(Sign(day, "copulation"),))
    window = due_window(GestationPrior(150, 168, 180), seen, today=day)
    assert window is not None
    return NurseryClaim(dam, nursery, window)


def test_two_litters_in_one_nursery_are_a_warning() -> None:
    """Mated ten days apart, both need N1: the days and both dams are named."""
    (conflict,) = nursery_conflicts([claim("Bella", "N1", 10), claim("Alma", "N1", 0)])
    assert conflict.dams == ("Alma", "Bella")
    assert conflict.begins == MATED + timedelta(days=10 + 150)
    assert conflict.ends == MATED + timedelta(days=180 + 42)
    assert "N1" in conflict.sentence


def test_a_nursery_of_its_own_or_time_enough_is_no_warning() -> None:
    """Another nursery, or a litter that comes after the first has left, is fine."""
    first = claim("Alma", "N1", 0)
    assert nursery_conflicts([first, claim("Bella", "N2", 0)]) == ()
    assert nursery_conflicts([first, claim("Bella", "N1", 180 + 42 - 150)]) != ()
    assert nursery_conflicts([first, claim("Bella", "N1", 180 + 42 - 150 + 1)]) == ()
