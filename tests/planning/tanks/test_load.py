"""The load of a tank, and which tanks isolate."""

from math import pi

import pytest

from colony.planning.tanks.load import Occupant, TankFloor, isolating, load

BOX = TankFloor("A1", length_mm=1000, width_mm=500)


def rays(*widths: float, **facts: object) -> list[Occupant]:
    """Make occupants of these disc widths."""
    return [Occupant(f"r{n}", w, **facts) for n, w in enumerate(widths)]  # type: ignore[arg-type]


def test_load_is_disc_area_over_floor_area() -> None:
    """Two discs of 20 cm over half a square metre; a round tank by its own area."""
    assert load(BOX, rays(200, 200)) == pytest.approx(2 * pi / 4 * 200**2 / 500_000)
    assert load(TankFloor("R", diameter_mm=1000), rays(100)) == pytest.approx(0.01)
    assert load(TankFloor("?"), rays(100)) is None


def test_intake_that_shares_water_with_grow_out_isolates_nothing() -> None:
    """A tank isolates only when its whole system is intake or hospital."""
    tanks = [
        TankFloor("I1", role="intake", system="S1"),
        TankFloor("H1", role="hospital", system="S1"),
        TankFloor("I2", role="intake", system="S2"),
        TankFloor("G1", role="grow-out", system="S2"),
        TankFloor("I3", role="intake"),
        TankFloor("G2", role="grow-out"),
    ]
    assert isolating(tanks) == {"I1", "H1", "I3"}
